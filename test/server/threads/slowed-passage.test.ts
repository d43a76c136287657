import { describe, expect, it } from 'vitest';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { AnnotateChoice } from '../../../server/api/requests/options.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import { computePlan, computeProof } from '../../../server/threads/tasks/compute.ts';
import { findFixes } from '../../../server/threads/tasks/find-fixes.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import * as mei from '../../engine/score/mei/mei-builder.ts';
import * as xml from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotator } from '../../render/shared-annotator.ts';
import { pedalReport } from '../annotation-sample.ts';

const clock = () => startStageClock(IGNORE_PROGRESS);

/** Six moves of the right foot in a bar that has no time for them at 200; then two bars that have. */
const HURRIED = 'E4 F4 G4 A4 Eb4 F#4 G#4 Ab4'.split(' ');

const XML = encodeText(
  xml.buildScore([
    {
      id: 'P1',
      name: 'Harp',
      bars: [
        xml.direction(
          '<metronome><beat-unit>quarter</beat-unit><per-minute>200</per-minute></metronome>',
          '<staff>1</staff><sound tempo="200"/>',
        ) + HURRIED.map((pitch) => xml.note(pitch, 0.5)).join(''),
        xml.note('E4', 4),
        xml.note('E4', 4),
      ],
    },
  ]),
  'utf-8',
);

const MEI = encodeText(
  mei.meiScore(
    mei.bar({
      upper: HURRIED.map((name) => {
        const [, letter = '', sign = '', octave = ''] = /^(\w)(#|b)?(\d)$/.exec(name) ?? [];
        const accid = { '#': 'accid="s"', b: 'accid="f"', '': 'accid="n"' }[sign]!;
        return mei.note(`${letter.toLowerCase()}${octave}`, 8, accid);
      }).join(''),
      marks: '<tempo staff="1" place="above" tstamp="1" mm="200" mm.unit="4">♩ = 200</tempo>',
    }) +
      mei.bar({ upper: mei.note('e4', 1, 'accid="n"') }) +
      mei.bar({ upper: mei.note('e4', 1, 'accid="n"') }),
  ),
  'utf-8',
);

const tempoFix = async (bytes: Uint8Array) => {
  const found = await findFixes({ bytes, fileName: '' }, {}, clock());
  if (!found.ok) throw new Error(JSON.stringify(found.problem));
  const fixes = found.value.places.flatMap((place) => place.fixes);
  return fixes.flatMap((fix) => (fix.kind === 'tempo' ? [fix] : []))[0]!;
};

const annotate = async (bytes: Uint8Array, choice: AnnotateChoice) => {
  const done = await annotateScore(
    { bytes, fileName: '' },
    choice,
    { kind: 'source', kinds: ['musicxml', 'mei'] },
    annotator,
    clock(),
  );
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  const { source, annotation } = done.value;
  return { bytes: source!.bytes, text: new TextDecoder().decode(source!.bytes), annotation };
};

const plan = async (bytes: Uint8Array, choice: AnnotateChoice = {}) => {
  const planned = await computePlan({ bytes, fileName: '' }, choice, clock());
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  return pedalReport(planned.value);
};

describe.each([
  ['MusicXML', XML],
  ['MEI', MEI],
])('a tempo that makes a place of a %s file playable', (format, bytes) => {
  it('is offered as a decision that the plan goes by', async () => {
    const { decisions, tempo } = await tempoFix(bytes);
    expect(Object.keys(decisions)).toEqual(['tempos']);
    expect(decisions.tempos).toEqual([
      {
        from: { barIndex: 0, beat: '1' },
        until: { barIndex: 1, beat: '1' },
        quartersPerMinute: tempo.quartersPerMinute,
      },
    ]);
    const faster = decisions.tempos.map((each) => ({
      ...each,
      quartersPerMinute: each.quartersPerMinute + 1,
    }));
    const codesWith = async (tempos: typeof faster) =>
      (await plan(bytes, { tempos })).findings.map(({ code }) => code);
    expect((await plan(bytes)).findings.map(({ code }) => code)).toContain('foot-too-busy');
    expect(await codesWith([...decisions.tempos])).not.toContain('foot-too-busy');
    expect(await codesWith(faster)).toContain('foot-too-busy');
  });

  it('is written into the file where it begins, and the tempo of the score where it ends', async () => {
    const { decisions, tempo } = await tempoFix(bytes);
    const { text } = await annotate(bytes, { tempos: [...decisions.tempos] });
    const limit = tempo.quartersPerMinute;
    const marks = [...text.matchAll(/<sound tempo="(\d+)"|<tempo [^>]*mm="(\d+)"/g)].map(([, a, b]) =>
      Number(a ?? b),
    );
    expect(marks).toEqual([200, limit, 200]);
    expect(text.match(/no faster than/g)).toHaveLength(1);
    expect(text.indexOf('no faster than')).toBeLessThan(text.lastIndexOf('measure n'));
  });

  it('goes with the file, holds for its proof too, and is taken out with the decision', async () => {
    const { decisions } = await tempoFix(bytes);
    const once = await annotate(bytes, { tempos: [...decisions.tempos] });
    const again = await annotate(once.bytes, {});
    expect(again.text).toBe(once.text);
    expect(again.annotation.remarks.map(({ message }) => message).join(' ')).toContain('1 passage slowed');
    const proof = await computeProof({ bytes: once.bytes, fileName: '' }, {}, clock());
    if (!proof.ok) throw new Error(proof.problem.code);
    expect(proof.value.report.findings.map(({ code }) => code)).not.toContain('change-too-quick');
    const plain = await annotate(bytes, {});
    expect((await annotate(once.bytes, { pins: [] })).text).toBe(plain.text);
    expect(plain.text).not.toContain('no faster than');
    expect(format).toMatch(/MEI|MusicXML/);
  });

  it('stands over the music on the pages', async () => {
    const { decisions } = await tempoFix(bytes);
    const done = await annotateScore(
      { bytes, fileName: '' },
      { tempos: [...decisions.tempos] },
      { kind: 'svg' },
      annotator,
      clock(),
    );
    if (!done.ok) throw new Error(done.problem.code);
    const { annotation } = done.value;
    const page =
      'svgs' in annotation ? (annotation.svgs as readonly string[]).join('') : JSON.stringify(annotation);
    expect(page).toContain('no faster than');
  });
});

/** Two bars of 6/8, of which the second is slowed, for a German reader. */
const slowedInSixEight = async (format: 'musicxml' | 'mei') => {
  const bars = { musicxml: XML_SIX_EIGHT, mei: MEI_SIX_EIGHT };
  return annotate(bars[format], {
    language: 'german',
    tempos: [{ from: { barIndex: 1, beat: '1' }, until: null, quartersPerMinute: 54 }],
  });
};

const XML_SIX_EIGHT = encodeText(
  new TextDecoder()
    .decode(XML)
    .replace('</divisions>', '</divisions><time><beats>6</beats><beat-type>8</beat-type></time>'),
  'utf-8',
);

const MEI_SIX_EIGHT = encodeText(
  new TextDecoder().decode(MEI).replace('meter.count="4" meter.unit="4"', 'meter.count="6" meter.unit="8"'),
  'utf-8',
);

describe('a slowed passage in 6/8', () => {
  it('is written into MusicXML in dotted quarters, with words in the language of the sheets', async () => {
    const { text } = await slowedInSixEight('musicxml');
    expect(text).toContain('<words>nicht schneller als</words>');
    expect(text).toMatch(
      /<beat-unit>quarter<\/beat-unit><beat-unit-dot\/><per-minute>36<\/per-minute>.*<sound tempo="54"\/>/,
    );
  });

  it('is written into MEI so', async () => {
    const { text } = await slowedInSixEight('mei');
    expect(text).toMatch(/mm="36" mm\.unit="4" mm\.dots="1">nicht schneller als ♩\. = 36<\/tempo>/);
  });
});

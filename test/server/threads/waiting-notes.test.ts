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

/** D in two positions at once, and no other string gives D natural; the chord lasts for the bar. */
const XML = encodeText(
  xml.buildHarp(xml.note('D4', 4) + xml.note('D#5', 4, { chord: true }), xml.note('A4', 4)),
  'utf-8',
);

const MEI = encodeText(
  mei.meiScore(
    mei.bar({
      upper: '<chord dur="1"><note pname="d" oct="4"/><note pname="d" oct="5" accid="s"/></chord>',
    }) + mei.bar({ upper: mei.note('a4', 1) }),
  ),
  'utf-8',
);

const file = (bytes: Uint8Array) => ({ bytes, fileName: '' });

const waitOf = async (bytes: Uint8Array) => {
  const found = await findFixes(file(bytes), {}, clock());
  if (!found.ok) throw new Error(JSON.stringify(found.problem));
  const fixes = found.value.places.flatMap((place) => place.fixes);
  return fixes.flatMap((fix) => (fix.kind === 'delay' && fix.sentence.includes('D♯5') ? [fix] : []))[0]!;
};

const annotate = async (bytes: Uint8Array, choice: AnnotateChoice) => {
  const done = await annotateScore(
    file(bytes),
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
  const planned = await computePlan(file(bytes), choice, clock());
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  return pedalReport(planned.value);
};

describe.each([
  ['MusicXML', XML],
  ['MEI', MEI],
])('a note of a %s file that waits for the pedal', (_format, bytes) => {
  it('is offered as a decision that the plan goes by', async () => {
    const { decisions, sentence } = await waitOf(bytes);
    expect(sentence).toBe('Play the D♯5 in bar 1 later, on beat 2.');
    expect(decisions).toEqual({ delays: [{ barIndex: 0, beat: '1', pitch: 'D♯5', toBeat: '2' }] });
    expect((await plan(bytes)).findings.map(({ code }) => code)).toContain('pedal-in-two-positions');
    const { findings, moves } = await plan(bytes, { delays: [...decisions.delays] });
    expect(findings.map(({ code }) => code)).toEqual(['ringing-string-moved']);
    expect(moves.map(({ change, bar, beat }) => [change, bar, beat])).toEqual([['D♯', '1', '3/2']]);
  });

  it('is told in the file where it is written, holds for its proof, and is taken out with the decision', async () => {
    const { decisions } = await waitOf(bytes);
    const once = await annotate(bytes, { delays: [...decisions.delays] });
    expect(once.text.match(/D♯5 on beat 2/g)).toHaveLength(1);
    expect(once.text.indexOf('on beat 2')).toBeLessThan(once.text.lastIndexOf('<measure'));
    const again = await annotate(once.bytes, {});
    expect(again.text).toBe(once.text);
    expect(again.annotation.remarks.map(({ message }) => message).join(' ')).toContain('1 delay of notes');
    const proof = await computeProof(file(once.bytes), {}, clock());
    if (!proof.ok) throw new Error(proof.problem.code);
    expect(proof.value.report.findings.map(({ severity }) => severity)).not.toContain('stop');
    const plain = await annotate(bytes, {});
    expect((await annotate(once.bytes, { pins: [] })).text).toBe(plain.text);
  });

  it('is told over the music in the language of the pages, and the change stands where the foot moves', async () => {
    const { decisions } = await waitOf(bytes);
    const done = await annotateScore(
      file(bytes),
      { delays: [...decisions.delays], language: 'german' },
      { kind: 'svg' },
      annotator,
      clock(),
    );
    if (!done.ok) throw new Error(done.problem.code);
    const page = done.value.annotation.pages.join('');
    expect(page).toContain('auf Schlag 2');
    expect(/<g [^>]*data-pedals="D♯"[^>]*>/.exec(page)![0]).toContain('data-beat="3/2"');
  });

  it('that no longer sounds then is refused by name', async () => {
    const refused = await computePlan(
      file(bytes),
      { delays: [{ barIndex: 0, beat: '1', pitch: 'D♯5', toBeat: '7/3' }] },
      clock(),
    );
    expect(refused.ok).toBe(false);
    if (!refused.ok)
      expect(JSON.stringify(refused.problem)).toContain('there must be a note or a beat there');
    const ended = await computePlan(
      file(bytes),
      { delays: [{ barIndex: 1, beat: '1', pitch: 'A4', toBeat: '1' }] },
      clock(),
    );
    expect(ended.ok).toBe(false);
    if (!ended.ok) expect(JSON.stringify(ended.problem)).toContain('must still sound then');
  });
});

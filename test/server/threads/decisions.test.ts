import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { AnnotateChoice } from '../../../server/api/requests/options.ts';
import { reportAnnotation } from '../../../server/reports/report.ts';
import { namesIn } from '../../../server/reports/report-notes.ts';
import { annotateScore } from '../../../server/threads/tasks/annotate/annotate-score.ts';
import type { Annotated } from '../../../server/threads/tasks/annotate/annotated.ts';
import { computePlan } from '../../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotator } from '../../render/shared-annotator.ts';
import { pedalReport } from '../annotation-sample.ts';

const annotate = async (bytes: Uint8Array, choice: AnnotateChoice): Promise<Annotated> => {
  const kinds = ['musicxml', 'mei'] as const;
  const done = await annotateScore(
    { bytes, fileName: '' },
    choice,
    { kind: 'source', kinds },
    annotator,
    startStageClock(IGNORE_PROGRESS),
  );
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const textOf = ({ source }: Annotated): string => new TextDecoder().decode(source!.bytes);

const DEMO = new Uint8Array(
  readFileSync(new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url)),
);

const CLASH = encodeText(buildHarp(note('C4', 4) + note('C#5', 4, { chord: true }), note('C4', 4)), 'utf-8');

const plan = async (bytes: Uint8Array, choice: AnnotateChoice = {}) => {
  const planned = await computePlan({ bytes, fileName: '' }, choice, startStageClock(IGNORE_PROGRESS));
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  return pedalReport(planned.value);
};

describe('the fix of a finding', () => {
  it('is told so that a request can give it back, and then the place is good', async () => {
    const [finding] = (await plan(CLASH)).findings.filter(({ severity }) => severity === 'stop');
    const [fix] = finding!.fixes;
    const respell = fix!.changes.flatMap((each) =>
      each.kind === 'respell' ? [{ ...each.at, to: each.to }] : [],
    );
    const omit = fix!.changes.flatMap((each) => (each.kind === 'omit' ? [each.at] : []));
    expect(respell.length + omit.length).toBe(fix!.changes.length);
    expect((await plan(CLASH, { respell, omit })).summary.playable).toBe(true);
    expect((await plan(CLASH)).summary.playable).toBe(false);
  });
});

describe('the decisions on a part', () => {
  const choice: AnnotateChoice = {
    omit: [{ barIndex: 0, beat: '1', pitch: 'C♯5' }],
    fullSettings: [{ barIndex: 1, beat: '1', print: true }],
  };

  it('goes with the file: the next request need not tell it again', async () => {
    const once = await annotate(CLASH, choice);
    expect(once.annotation.plan.plan.findings).toEqual([]);
    const again = await annotate(once.source!.bytes, {});
    expect(textOf(again)).toBe(textOf(once));
    expect(again.annotation.remarks.map(({ code }) => code)).toContain('saved-decisions');
    expect(textOf(once).match(/<harp-pedals /g)).toHaveLength(2);
    const report = pedalReport(reportAnnotation(again.annotation, namesIn(again.score)));
    expect(report.omitted).toHaveLength(1);
    expect((await plan(once.source!.bytes)).omitted).toEqual(report.omitted);
  });

  it('is passed over where the request says so, and replaced by what it gives itself', async () => {
    const { source } = await annotate(CLASH, choice);
    const { bytes } = source!;
    const plain = await annotate(CLASH, {});
    expect(textOf(await annotate(bytes, { savedDecisions: false }))).toBe(textOf(plain));
    expect(textOf(await annotate(bytes, { pins: [] }))).toBe(textOf(plain));
    expect(textOf(await annotate(bytes, { omit: choice.omit! }))).toBe(
      textOf(await annotate(CLASH, { omit: choice.omit! })),
    );
  });

  it('that has no place in the score is refused by name', async () => {
    const refused = await computePlan(
      { bytes: CLASH, fileName: '' },
      { omit: [{ barIndex: 0, beat: '2', pitch: 'C4' }] },
      startStageClock(IGNORE_PROGRESS),
    );
    expect(refused).toMatchObject({ ok: false, problem: { code: 'bad-option', option: 'omit.0.pitch' } });
  });

  it('writes chosen strings into the file, though the spelling be kept', async () => {
    const done = await annotate(CLASH, { respell: [{ barIndex: 0, beat: '1', pitch: 'C#5', to: 'Db5' }] });
    expect(textOf(done)).toContain('<step>D</step><alter>-1</alter><octave>5</octave>');
  });

  it('leaves a file without decisions as it is annotated otherwise', async () => {
    expect(textOf(await annotate(DEMO, {}))).not.toMatch(/tringle-decisions|tringle-omitted/);
  });
});

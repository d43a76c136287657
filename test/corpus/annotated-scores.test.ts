import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { HarpPlan } from '../../engine/harp-plan.ts';
import type { Score } from '../../engine/score/model.ts';
import { openScore } from '../../engine/score/open.ts';
import { type Annotator, createAnnotator } from '../../render/annotate.ts';
import type { Annotation } from '../../render/annotation.ts';
import { type Performance, playMarkings } from '../checker/play-markings.ts';
import { type PrintedMarking, readPrintedMarkings } from '../checker/printed-markings.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';

let annotator: Annotator;

beforeAll(async () => {
  annotator = await createAnnotator();
});

interface Played {
  readonly score: Score;
  readonly annotation: Annotation;
  readonly markings: readonly PrintedMarking[];
  readonly performance: Performance;
}

const annotateAndPlay = async (bytes: Uint8Array, part: string | undefined): Promise<Played> => {
  const options = part === undefined ? {} : { part };
  const annotated = await annotateBytes(annotator, bytes, options, 'pdf');
  const opened = openScore(bytes, options);
  if (!annotated.ok || !opened.ok) throw new Error(JSON.stringify(annotated));
  const markings = readPrintedMarkings(annotated.value.pages);
  const performance = playMarkings(opened.value, markings);
  return { score: opened.value, annotation: annotated.value, markings, performance };
};

/** Notes that the plan itself says cannot be played as printed. */
const notesGivenUp = ({ plan }: HarpPlan): Set<string> =>
  new Set(plan.findings.filter((finding) => finding.severity === 'stop').flatMap((finding) => finding.notes));

const expectPlayable = ({ annotation, performance, markings }: Played): void => {
  const givenUp = notesGivenUp(annotation.plan);
  expect(performance.notesPlayed).toBeGreaterThan(0);
  expect(performance.missingNotes.filter(({ note }) => !givenUp.has(note))).toEqual([]);
  const busy = annotation.plan.plan.findings.filter((finding) => finding.code === 'foot-too-busy');
  if (busy.length === 0) expect(performance.hurries).toEqual([]);
  expect(markings[0]).toMatchObject({ kind: 'setting', barIndex: 0, beat: 1 });
  expect(annotation.pdf!.length).toBeGreaterThan(1000);
};

describe.each(['lanterns-at-the-lock.musicxml', 'lanterns-at-the-lock.mei'])('the demo as %s', (file) => {
  it('is served by its printed markings, every note', async () => {
    const played = await annotateAndPlay(
      new Uint8Array(readFileSync(new URL(`../../server/demo/${file}`, import.meta.url))),
      undefined,
    );
    expectPlayable(played);
    expect(played.performance.missingNotes).toEqual([]);
    expect(played.performance.hurries).toEqual([]);
  });
});

describe.skipIf(!hasScores)('real scores (skipped where ../shared/scores is absent)', () => {
  it.each(HARP_SCORES)(
    '$file is served by its printed markings, but for what the findings name',
    async ({ file, part }) => {
      expectPlayable(await annotateAndPlay(readScoreFile(file), part));
    },
    60_000,
  );
});

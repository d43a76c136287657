import type { Score, TuneFormat } from '../../../../engine/index.ts';
import { type Annotation, type Annotator, type HarpScore, joinAnnotated } from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { openFile, type PlannedScore, planScore } from '../plan-score.ts';
import { type SourceFile, writeSourceFile } from '../source-file.ts';
import type { StageClock } from '../stage-clock.ts';
import { markSource, tuneFormatFor } from './annotate-score.ts';
import { type Annotated, type Target, withoutDecisions } from './annotated.ts';
import { drawnForm, engraveParts, engraveTogether } from './engrave-parts.ts';

/** The score of several harps, and what its files are called. */
export interface NamedScore extends HarpScore {
  readonly name: string;
}

/** All harps of a score, or both players of a part. */
export interface AnnotatedHarps {
  readonly title: string;
  /** In score order; the pages of each are its part, and it has a file of its own where the players share the staves. */
  readonly harps: readonly Annotated[];
  /** What each is called. */
  readonly names: readonly string[];
  /** All harps under each other; null where no pages are wanted, or there is one harp. */
  readonly together: NamedScore | null;
  /** The user's own file with the markings of all harps; null where a report is wanted. */
  readonly source: SourceFile | null;
}

/** How the score of all harps is called, and the file with all markings. */
export const ALL_HARPS = 'all harps';

/**
 * Annotates every harp of a score: a part for each, the score of all, and the user's own file with all markings. What
 * was decided about a harp and saved in the file holds for that harp.
 *
 * @param target pages as `pdf` or `svg` bring the file with them; `source` is the file alone, `plan` the reports
 * @param choice its part and its decisions are those of one harp
 * @returns the harps, or the problem that keeps any of them from being made
 */
export const annotateHarps = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave' | 'engraveTogether'>,
  clock: StageClock,
): Promise<Outcome<AnnotatedHarps>> => {
  const planned = await planHarps(file, choice, clock, tuneFormatFor(target));
  if (!planned.ok) return planned;
  const scores = planned.value.map(({ score }) => score);
  const engraved = await engraveParts(planned.value, choice, target, annotator, clock);
  if (!engraved.ok) return engraved;
  const together = await drawTogether(planned.value, choice, drawnForm(target), annotator);
  if (!together.ok) return together;
  const harps = engraved.value.map(
    (annotation, i): Annotated => ({ annotation, score: scores[i]!, source: null, others: [] }),
  );
  const done = {
    title: scores[0]!.titles.title,
    names: scores.map(({ harp }) => harp.name),
    together: together.value === null ? null : { name: ALL_HARPS, ...together.value },
  };
  if (target.kind === 'plan') return { ok: true, value: { ...done, harps, source: null } };
  clock.begin('write', scores[0]!.bars.length);
  const kinds = target.kind === 'source' ? target.kinds : (['musicxml', 'mxl', 'mei'] as const);
  const marked = markAll(planned.value, file.bytes, choice, kinds);
  if (!marked.ok) return marked;
  const told = harps.map((harp, index) => withRemarks(harp, marked.value.remarks[index]!));
  return { ok: true, value: { ...done, harps: told, source: marked.value.file } };
};

const withRemarks = (harp: Annotated, remarks: Annotation['remarks']): Annotated => ({
  ...harp,
  annotation: { ...harp.annotation, remarks: [...harp.annotation.remarks, ...remarks] },
});

const planHarps = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  clock: StageClock,
  tuneFormat: TuneFormat,
): Promise<Outcome<readonly PlannedScore[]>> => {
  const opened = await openFile(file, choice, tuneFormat);
  if (!opened.ok) return opened;
  const planned: PlannedScore[] = [];
  for (const id of harpsOf(opened.value)) {
    const isNamed = opened.value.harp.partIds.includes(id);
    const each = await planScore(
      file,
      { ...(isNamed ? choice : withoutDecisions(choice)), part: id },
      clock,
      tuneFormat,
    );
    if (!each.ok) return each;
    planned.push(each.value);
  }
  return { ok: true, value: planned };
};

/** The harps by their names and sounds, and the part that the request names where it is none of them. */
const harpsOf = ({ harps, harp: { partIds } }: Score): readonly string[] => {
  const listed = harps.map(({ id }) => id);
  return listed.some((id) => partIds.includes(id)) ? listed : [...listed, partIds[0]!];
};

const drawTogether = async (
  planned: readonly PlannedScore[],
  choice: AnnotateChoice,
  form: 'pdf' | 'svg' | null,
  annotator: Pick<Annotator, 'engraveTogether'>,
): Promise<Outcome<HarpScore | null>> =>
  form === null || planned.length === 1
    ? { ok: true, value: null }
    : engraveTogether(planned, choice, form, annotator);

/** Writes the markings of all harps into the one file. */
const markAll = (
  planned: readonly PlannedScore[],
  bytes: Uint8Array,
  choice: AnnotateChoice,
  kinds: readonly SourceFile['kind'][],
): Outcome<{ readonly file: SourceFile; readonly remarks: readonly Annotation['remarks'][] }> => {
  const marked = [];
  for (const each of planned) {
    const own = markSource(each, choice);
    if (!own.ok) return own;
    marked.push(own.value);
  }
  const { score } = planned[0]!;
  const file = writeSourceFile(score, bytes, joinAnnotated(score, marked), kinds);
  return file.ok
    ? { ok: true, value: { file: file.value, remarks: marked.map(({ remarks }) => remarks) } }
    : file;
};

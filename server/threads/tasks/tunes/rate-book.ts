import {
  cutTunes,
  LEVER_HARP,
  type LeverOptions,
  leverOptionsFor,
  listTunes,
  planLevers,
  problemMessage,
  rateTune,
  type Score,
} from '../../../../engine/index.ts';
import type { SetTune } from '../../../../render/index.ts';
import type { CompareChoice } from '../../../api/answers/comparison.ts';
import type { RatedTune } from '../../../reports/tune-table.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { harpFor, openFile } from '../plan-score.ts';

/** Which tunes are rated, and how. */
export interface RatingWish {
  /** Numbers; null for all. */
  readonly only: readonly string[] | null;
  /** As the tunes of a set have to be: in the harp’s own tuning, unless another is named. */
  readonly inOneTuning: boolean;
}

export interface RatedBook {
  /** Of all tunes of the book, chosen or not; empty for a file with one piece. */
  readonly numbers: readonly string[];
  readonly tunes: readonly RatedTune[];
  /** What could not be read, in sentences. */
  readonly failures: readonly string[];
}

/** Rates every tune of a tune book, or the one piece of another file; what cannot be read is told, and the others go on. */
export const rateBook = async (
  file: ScoreFile,
  choice: CompareChoice,
  { only, inOneTuning }: RatingWish,
): Promise<Outcome<RatedBook>> => {
  const tunes: RatedTune[] = [];
  const failures: string[] = [];
  const listed = listTunes(file.bytes);
  if (!listed.ok) return listed;
  const all = (listed.value ?? []).map(({ number }) => number);
  const numbers = choice.tune === undefined ? all : [];
  const cut = cutTunes(file.bytes);
  for (const [index, number] of (numbers.length === 0 ? [choice.tune] : numbers).entries()) {
    if (only !== null && !only.includes(number ?? '')) continue;
    const alone = numbers.length === 0 ? file : { ...file, bytes: cut(index, number!) };
    const score = await openFile(alone, number === undefined ? choice : { ...choice, tune: number });
    if (!score.ok) {
      // Nothing is left of a file with one piece.
      if (numbers.length === 0) return score;
      failures.push(`${file.fileName}: ${problemMessage(score.problem)}`);
      continue;
    }
    const options = optionsFor(choice, score.value, inOneTuning);
    const chosen = number === undefined ? choice : { ...choice, tune: number };
    tunes.push({
      file: file.fileName,
      open: () => openAgain(alone, chosen, options),
      number: number ?? '',
      ...rateTune(score.value, options, choice.maxSemitones ?? 0),
    });
  }
  return { ok: true, value: { numbers: all, tunes, failures } };
};

/** Scores are not kept: of a whole book they would be many. */
const openAgain = async (file: ScoreFile, choice: CompareChoice, options: LeverOptions): Promise<SetTune> => {
  const score = await openFile(file, choice);
  if (!score.ok) throw new Error(`a tune that was read cannot be read again: ${score.problem.code}`);
  const plan = planLevers(score.value, options);
  return {
    score: score.value,
    plan: { kind: 'lever', plan, profile: options.profile, omitted: plan.omitted },
  };
};

const optionsFor = (choice: CompareChoice, score: Score, inOneTuning: boolean): LeverOptions => {
  const harp = harpFor(choice, score).profile;
  const profile = harp.kind === 'lever' ? harp : LEVER_HARP;
  const options = { ...leverOptionsFor(choice), profile };
  return inOneTuning && choice.tuning === undefined ? { ...options, tuning: profile.tuning } : options;
};

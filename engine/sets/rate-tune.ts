import { compareHarps, DEFAULT_COMPARE_OPTIONS } from '../compare/compare.ts';
import { readMode } from '../compare/pedal-keys.ts';
import type { Grade } from '../difficulty/model.ts';
import { countPlaces } from '../findings/count-places.ts';
import { nameLever } from '../harp/lever-name.ts';
import { openAlter, tuningName } from '../harp/open-tuning.ts';
import { listRetunedStrings, type RetunedLetter } from '../harp/retuned-strings.ts';
import type { LeverOptions } from '../levers/options.ts';
import { planLevers } from '../levers/plan.ts';
import { accidentalSign } from '../music/accidental.ts';
import { nameKey } from '../music/key-names.ts';
import type { Score } from '../score/model/score.ts';
import { leversOfTune, type TuneLevers } from './tune-levers.ts';

/** How a tune goes on a lever harp: one line of the table of a tune book. */
export interface TuneRating {
  readonly title: string;
  readonly bars: number;
  /** The key signature at the beginning: sharps positive, flats negative. */
  readonly keyFifths: number;
  /** Its name, with the mode where that is known. */
  readonly keyName: string;
  readonly tuning: string;
  /** Strings to retune before the tune, as its sheets tell them: of whole letters as `all E♮`, single ones as `E♮5`. */
  readonly retuned: readonly string[];
  /** Levers that are up before the start, from the lowest. */
  readonly leversUp: readonly string[];
  readonly changes: number;
  readonly playable: boolean;
  /** Places that are not playable. */
  readonly stops: number;
  readonly grade: Grade;
  /** Keys in which it goes better on this harp, the best first; none looked for unless asked. */
  readonly betterKeys: readonly {
    readonly semitones: number;
    readonly keyFifths: number;
    readonly keyName: string;
    readonly changes: number;
  }[];
  readonly levers: TuneLevers;
}

/**
 * Plans a tune and puts what the player of a tune book asks into one line.
 *
 * @param maxSemitones how far other keys are looked for; 0 for none, which takes a fraction of the time
 */
export const rateTune = (score: Score, options: LeverOptions, maxSemitones: number): TuneRating => {
  const plan = planLevers(score, options);
  const { profile } = options;
  const { transpositions } =
    maxSemitones === 0
      ? { transpositions: [] }
      : compareHarps(score, { ...DEFAULT_COMPARE_OPTIONS, lever: options, maxSemitones });
  const mode = readMode(score);
  const keyFifths = score.bars[0]?.keyFifths ?? 0;
  return {
    title: score.titles.title,
    bars: score.bars.length,
    keyFifths,
    keyName: nameKey(keyFifths, mode),
    tuning: tuningName(plan.tuning),
    retuned: listRetunedStrings(profile.tuning, plan.tuning, profile).flatMap(nameRetuned),
    leversUp: plan.initial.map((string) => nameLever(string, openAlter(plan.tuning, string) + 1)),
    changes: plan.summary.changes,
    playable: plan.summary.playable,
    stops: countPlaces(plan.findings, 'stop'),
    grade: plan.summary.difficulty.grade,
    betterKeys: transpositions.map(({ semitones, keyFifths: fifths, lever }) => ({
      semitones,
      keyFifths: fifths,
      keyName: nameKey(fifths, mode),
      changes: lever.changes,
    })),
    levers: leversOfTune(score, plan),
  };
};

const nameRetuned = ({ letter, strings, to }: RetunedLetter): readonly string[] =>
  strings?.map((string) => nameLever(string, to)) ?? [`all ${letter}${accidentalSign(to)}`];

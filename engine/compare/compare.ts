import type { Grade } from '../difficulty/model.ts';
import { countPlaces } from '../findings/count-places.ts';
import type { OpenTuning } from '../harp/open-tuning.ts';
import { type LeverContext, prepareLevers } from '../levers/context.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from '../levers/options.ts';
import { planLevers } from '../levers/plan.ts';
import { allTunings, boundBestTuning, keyTunings } from '../levers/tuning/tunings.ts';
import type { Plan } from '../pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../pedals/options.ts';
import { planPedals } from '../pedals/plan.ts';
import type { Score } from '../score/model/score.ts';
import { type InEitherWay, joinWays } from './both-ways.ts';
import { COMPARE_CATALOGUE } from './catalogue.ts';
import { type Comparing, type ComparisonStep, finishComparing } from './comparison-steps.ts';
import { transposeScore, transposingInterval } from './transpose.ts';

/** How a part goes on one harp. */
export interface HarpVerdict {
  readonly harp: string;
  /** Whether nothing stops the player. */
  readonly playable: boolean;
  /** Places that are not playable, and places with a warning: a finding may have several. */
  readonly stops: number;
  readonly warnings: number;
  /** Pedals moved, or levers set, during the piece. */
  readonly changes: number;
  /** How hard it is. */
  readonly grade: Grade;
}

export interface LeverVerdict extends HarpVerdict {
  /** The tuning that serves the piece best, in words. */
  readonly tuning: string;
  /** Strings to be retuned before the piece. */
  readonly retuned: number;
  readonly leversUp: number;
}

/** The part in another key. */
export interface Transposition {
  /** Up where positive. */
  readonly semitones: number;
  /** The key signature at the beginning: sharps positive, flats negative. */
  readonly keyFifths: number;
  readonly pedal: HarpVerdict;
  readonly lever: LeverVerdict;
}

/** What no plan in another key can better: counted, not planned. */
export interface TranspositionBound {
  readonly semitones: number;
  readonly keyFifths: number;
  /** Notes that no string gives, at least. */
  readonly missingNotes: number;
  /** Changes of levers, at least. */
  readonly changes: number;
}

/** A part on a lever harp and on a pedal harp, beside each other. */
export interface HarpComparison {
  readonly pedal: HarpVerdict;
  readonly lever: LeverVerdict;
  /** Keys that suit the lever harp better than the written one, the best first. */
  readonly transpositions: readonly InEitherWay<Transposition>[];
  /** All keys that were considered, the most promising first. */
  readonly considered: readonly TranspositionBound[];
}

export interface CompareOptions {
  readonly pedal: PlanOptions;
  readonly lever: LeverOptions;
  /** The farthest transposition that is tried, either way. */
  readonly maxSemitones: number;
  /** So many of the most promising keys are planned in full. */
  readonly keysPlanned: number;
}

/** How harps and keys are compared where nothing is chosen. */
export const DEFAULT_COMPARE_OPTIONS: CompareOptions = {
  pedal: DEFAULT_PLAN_OPTIONS,
  lever: DEFAULT_LEVER_OPTIONS,
  maxSemitones: COMPARE_CATALOGUE.maxSemitones.default,
  keysPlanned: 3,
};

/**
 * Tells how a part goes on a pedal harp and on a lever harp, and in which other keys it suits the lever harp better.
 *
 * For every key the least changes are counted first, which takes no planning; only the most promising are planned.
 * Strings that the user chose for notes hold for the written key alone.
 */
export const compareHarps = (
  score: Score,
  options: CompareOptions = DEFAULT_COMPARE_OPTIONS,
): HarpComparison => finishComparing(comparingHarps(score, options));

/** The same, step by step: each key that is counted, and each plan, is a step. */
export function* comparingHarps(score: Score, options: CompareOptions): Comparing<HarpComparison> {
  const { maxSemitones, keysPlanned } = options;
  const counted = 2 * maxSemitones;
  const of = counted + 2 + 2 * Math.min(keysPlanned, counted);
  let done = 0;
  const step = (): ComparisonStep => {
    done += 1;
    return { done, of };
  };
  const lever = rateLeverHarp(score, options.lever);
  yield step();
  const pedal = ratePedalHarp(score, options.pedal);
  yield step();
  const inOtherKeys: CompareOptions = {
    ...options,
    pedal: { ...options.pedal, respelled: new Map(), pins: [] },
    lever: { ...options.lever, respelled: new Map() },
  };
  const bounds: TranspositionBound[] = [];
  for (let semitones = -maxSemitones; semitones <= maxSemitones; semitones += 1) {
    if (semitones === 0) continue;
    bounds.push(boundKey(score, semitones, inOtherKeys));
    yield step();
  }
  const considered = bounds.toSorted(compareBounds);
  const planned: Transposition[] = [];
  for (const { semitones, keyFifths } of considered.slice(0, keysPlanned)) {
    const moved = transposeScore(score, transposingInterval(score.bars[0]?.keyFifths ?? 0, semitones));
    const onLevers = rateLeverHarp(moved, inOtherKeys.lever);
    yield step();
    planned.push({ semitones, keyFifths, pedal: ratePedalHarp(moved, inOtherKeys.pedal), lever: onLevers });
    yield step();
  }
  const transpositions = planned
    .filter((each) => compareVerdicts(each.lever, lever) < 0)
    .sort((a, b) => compareVerdicts(a.lever, b.lever) || Math.abs(a.semitones) - Math.abs(b.semitones));
  const joined = joinWays(transpositions, (a, b) => goAlike(a.lever, b.lever) && goAlike(a.pedal, b.pedal));
  return { pedal, lever, transpositions: joined, considered };
}

/** Whether two verdicts say the same of how a part goes. */
export const goAlike = (a: HarpVerdict, b: HarpVerdict): boolean =>
  a.stops === b.stops && a.changes === b.changes && a.warnings === b.warnings && a.grade === b.grade;

const compareVerdicts = (a: HarpVerdict, b: HarpVerdict): number =>
  a.stops - b.stops || a.changes - b.changes;

const boundKey = (score: Score, semitones: number, { lever }: CompareOptions): TranspositionBound => {
  const key = score.bars[0]?.keyFifths ?? 0;
  const interval = transposingInterval(key, semitones);
  const context = prepareLevers(transposeScore(score, interval), lever);
  const { missingNotes, changes } = boundBestTuning(context, tuningsToConsider(context));
  return { semitones, keyFifths: key + interval.fifths, missingNotes, changes };
};

/** The most promising first. */
const compareBounds = (a: TranspositionBound, b: TranspositionBound): number =>
  a.missingNotes - b.missingNotes || a.changes - b.changes || Math.abs(a.semitones) - Math.abs(b.semitones);

const tuningsToConsider = (context: LeverContext): readonly OpenTuning[] => {
  const { tuning } = context.options;
  if (typeof tuning !== 'string') return [tuning];
  return tuning === 'best' ? allTunings(context) : keyTunings(context);
};

const ratePedalHarp = (score: Score, options: PlanOptions): HarpVerdict =>
  ratePedalPlan(planPedals(score, options), options.profile.name);

/** What a plan says of how a part goes. @param harp its name */
export const ratePedalPlan = ({ findings, summary }: Plan, harp: string): HarpVerdict => {
  return {
    harp,
    playable: summary.playable,
    stops: countPlaces(findings, 'stop'),
    warnings: countPlaces(findings, 'warn'),
    changes: summary.moves,
    grade: summary.difficulty.grade,
  };
};

const rateLeverHarp = (score: Score, options: LeverOptions): LeverVerdict => {
  const { findings, summary, tunings } = planLevers(score, options);
  const { name, retuned } = tunings[0]!;
  return {
    harp: options.profile.name,
    playable: summary.playable,
    stops: countPlaces(findings, 'stop'),
    warnings: countPlaces(findings, 'warn'),
    changes: summary.changes,
    grade: summary.difficulty.grade,
    tuning: name,
    retuned,
    leversUp: summary.leversUp,
  };
};

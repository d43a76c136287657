import { add, compare, ZERO } from '../../music/rational.ts';
import { tempoUnitFinder } from '../../score/bars/counts.ts';
import type { Score } from '../../score/model/score.ts';
import { SLOWEST_SHARE, type SlowPassage, slowDown, TEMPO_LIMITS, tempoAt } from '../../score/slow-down.ts';
import type { Plan } from '../model.ts';
import type { TempoCourse, TempoLimit, TempoStep } from './model.ts';
import type { BarsOfPlace } from './note-candidates.ts';
import { growthOf, isEased, type OfferTrials, type StopAt, stopsIn, warningsLeft } from './trials.ts';

/** Bars on either side that are slowed too where those of the moves alone are of no help: the moves may be made there then. */
const BARS_AROUND = 1;

/** Plans for the course of a whole part. */
const MOST_STEPS = 40;

/** A score with every tempo slowed or quickened alike. */
const atShare = (score: Score, share: number): Score => ({
  ...score,
  tempo: score.tempo.map((mark) => ({ ...mark, quartersPerMinute: mark.quartersPerMinute * share })),
});

/** The fastest tempo of a passage. */
const fastestIn = ({ tempo }: Score, { from, until }: Omit<SlowPassage, 'quartersPerMinute'>): number =>
  tempo
    .filter(({ at }) => compare(at, from) > 0 && (until === null || compare(at, until) < 0))
    .reduce(
      (most, { quartersPerMinute }) => Math.max(most, quartersPerMinute),
      tempoAt(tempo, from).quartersPerMinute,
    );

/**
 * The fastest whole number that passes, given that all slower ones do: what slows the music only gives the feet more
 * time, so that the fewest moves without time never grow. That holds of plans that are proved the best.
 *
 * @returns null where even the least fails; asks for a plan of the logarithm of the range
 */
const fastest = (least: number, most: number, passes: (value: number) => boolean): number | null => {
  if (most < least || !passes(least)) return null;
  let [good, bad] = [least, most + 1];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (passes(middle)) good = middle;
    else bad = middle;
  }
  return good;
};

/**
 * The fastest tempo of the bars of a place at which its trouble is gone and no other place has become unplayable; null for
 * none. Where it is as fast in the bar of the place alone, the others are left as they are.
 *
 * @param own the bars of the moves that are close to each other
 */
export const findTempoLimit = (
  score: Score,
  place: StopAt,
  own: BarsOfPlace,
  before: Plan,
  trials: OfferTrials,
): TempoLimit | null => {
  const around = {
    first: Math.max(0, own.first - BARS_AROUND),
    last: Math.min(score.bars.length - 1, own.last + BARS_AROUND),
  };
  const limit = limitIn(score, place, own, before, trials);
  if (limit === null) return limitIn(score, place, around, before, trials);
  const alone = { first: place.bar, last: place.bar };
  const least =
    own.first === own.last ? null : limitIn(score, place, alone, before, trials, limit.quartersPerMinute);
  return least ?? limit;
};

/** @param slowest no slower tempo is tried, in quarter notes a minute */
const limitIn = (
  score: Score,
  place: StopAt,
  { first, last }: BarsOfPlace,
  before: Plan,
  trials: OfferTrials,
  slowest = 0,
): TempoLimit | null => {
  const from = score.bars[first]!.onset;
  const { onset, duration } = score.bars[last]!;
  const until = last + 1 < score.bars.length ? add(onset, duration) : null;
  const written = fastestIn(score, { from, until });
  const unit = tempoUnitFinder(score)(score.bars[first]!);
  const { quarters } = unit;
  const had = stopsIn(before);
  const known = new Map<number, Plan>();
  const planAt = (value: number): Plan => {
    const plan =
      known.get(value) ??
      trials.planAs(slowDown(score, [{ from, until, quartersPerMinute: value * quarters }]));
    known.set(value, plan);
    return plan;
  };
  const most = Math.ceil(written / quarters) - 1;
  const least = Math.ceil(Math.max(slowest, TEMPO_LIMITS.slowest, written * SLOWEST_SHARE) / quarters);
  const limit = fastest(least, most, (value) => isEased(place, had, stopsIn(planAt(value))));
  if (limit === null) return null;
  const next = limit + 1 > most ? before : planAt(limit + 1);
  const proved = planAt(limit).summary.provenOptimal && next.summary.provenOptimal;
  const after = planAt(limit);
  return {
    quartersPerMinute: limit * quarters,
    written,
    unit,
    bars: { first, last },
    passage: { from, until },
    left: warningsLeft(after, (each) => each >= first && each <= last),
    ...growthOf(before, after),
    proved,
  };
};

/**
 * How many places cannot be played as the whole part gets slower: at whole numbers of the notes that are counted in its
 * first bar, and between two that have the same number of stops none is tried.
 */
export const followTempo = (score: Score, before: Plan, trials: OfferTrials): TempoCourse => {
  const tempoOf = (bar: number): number => tempoAt(score.tempo, score.bars[bar]!.onset).quartersPerMinute;
  const unit = tempoUnitFinder(score)(score.bars[0]!);
  const { quarters } = unit;
  const { quartersPerMinute: written, origin } = tempoAt(score.tempo, ZERO);
  const isAssumed = origin === 'assumed';
  let proved = before.summary.provenOptimal;
  const most = Math.ceil(written / quarters) - 1;
  const least = Math.min(most, Math.max(1, Math.ceil((written * SLOWEST_SHARE) / quarters)));
  const known = new Map<number, Pick<TempoCourse, 'left'> & { readonly stops: readonly StopAt[] }>();
  const at = (value: number) => {
    const tried = known.get(value);
    if (tried !== undefined) return tried;
    const plan = trials.planAs(atShare(score, (value * quarters) / written));
    proved &&= plan.summary.provenOptimal;
    const told = { stops: stopsIn(plan), left: warningsLeft(plan) };
    known.set(value, told);
    return told;
  };
  const stopsAt = (value: number): number => at(value).stops.length;
  const had = stopsIn(before);
  const playable = had.length === 0;
  if (playable)
    return {
      unit,
      written,
      isAssumed,
      playableUpTo: written,
      left: warningsLeft(before),
      mended: [],
      proved,
      steps: [{ quartersPerMinute: written, stops: 0 }],
    };
  const limit = fastest(least, most, (value) => stopsAt(value) === 0);
  divide(least, most, stopsAt, () => known.size < MOST_STEPS);
  const steps = [
    ...[...known].map(
      ([value, { stops }]): TempoStep => ({ quartersPerMinute: value * quarters, stops: stops.length }),
    ),
    { quartersPerMinute: written, stops: had.length },
  ];
  return {
    unit,
    written,
    isAssumed,
    playableUpTo: limit === null ? null : limit * quarters,
    left: limit === null ? [] : at(limit).left,
    mended: limit === null ? listMended(had, known, quarters, tempoOf) : [],
    proved,
    steps: edgesOf(steps.sort((a, b) => a.quartersPerMinute - b.quartersPerMinute)),
  };
};

/** The places that are playable at some tempo that was tried and at every slower one, each with the fastest. */
const listMended = (
  had: readonly StopAt[],
  tried: ReadonlyMap<number, { readonly stops: readonly StopAt[] }>,
  quarters: number,
  there: (bar: number) => number,
): TempoCourse['mended'] => {
  const slowestFirst = [...tried].sort(([a], [b]) => a - b);
  return had.flatMap((place) => {
    const failing = slowestFirst.findIndex(([, { stops }]) => !isEased(place, had, stops));
    const [value] = slowestFirst[(failing < 0 ? slowestFirst.length : failing) - 1] ?? [];
    return value === undefined
      ? []
      : [
          {
            bar: place.bar,
            beat: place.beat,
            quartersPerMinute: value * quarters,
            // Told in whole notes a minute, as metronomes have them, and so that it is never too fast.
            there: Math.floor((there(place.bar) * value) / there(0)) * quarters,
          },
        ];
  });
};

const divide = (
  low: number,
  high: number,
  stopsAt: (value: number) => number,
  mayGoOn: () => boolean,
): void => {
  // Asked first: both are then among those that were tried, however near each other they are.
  if (stopsAt(low) === stopsAt(high) || high - low <= 1 || !mayGoOn()) return;
  const middle = Math.floor((low + high) / 2);
  divide(low, middle, stopsAt, mayGoOn);
  divide(middle, high, stopsAt, mayGoOn);
};

/** Those at which the number changes, and both ends. */
const edgesOf = (steps: readonly TempoStep[]): readonly TempoStep[] =>
  steps.filter(
    ({ stops }, i) =>
      i === 0 || i === steps.length - 1 || steps[i - 1]!.stops !== stops || steps[i + 1]!.stops !== stops,
  );

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printedSeconds } from '../../../engine/levers/context.ts';
import { type LeverTask, restsOfHands } from '../../../engine/levers/course/lever-task.ts';
import { findLeverSchedule } from '../../../engine/levers/course/schedule.ts';
import { momentOfSlot, slotOf } from '../../../engine/levers/course/slots.ts';
import type { PlayGraph } from '../../../engine/time/play-graph.ts';
import { cases } from '../../thorough.ts';
import { graphOf, hearMoments, PLAY_ORDERS } from '../barred-moments.ts';
import { BY_TIME, jobsOf, type Lever, NO_TIME, PER_CHANGE, REST, type SmallLevers } from './small-levers.ts';

interface Change {
  readonly string: number;
  readonly moment: number;
  /** Null: each time. */
  readonly time: 'first' | 'later' | null;
}

/** What can be printed for one lever at a moment. */
const PRINTS: readonly (readonly { readonly to: Lever; readonly time: Change['time'] }[])[] = [
  [],
  ...([0, 1] as const).flatMap((to) => [
    [{ to, time: null }],
    [{ to, time: 'first' as const }],
    [{ to, time: 'later' as const }],
  ]),
];

/** Whether every note of a string finds its lever, each pass played with what is printed for it. */
const serves = (
  music: SmallLevers,
  string: number,
  printed: readonly (typeof PRINTS)[number][],
  initial: Lever,
): boolean => {
  const passes = new Map<number, number>();
  let stands: Lever = initial;
  return hearMoments(music).every(({ moment }) => {
    const pass = (passes.get(moment) ?? 0) + 1;
    passes.set(moment, pass);
    for (const { to, time } of printed[moment]!)
      if (time === null || (time === 'first') === (pass === 1)) stands = to;
    return (music.asked[string]![moment] ?? stands) === stands;
  });
};

/** All that can be printed for one string so that it is served, none of which holds another of them. */
const waysOf = (music: SmallLevers, string: number): readonly (readonly Change[])[] => {
  const ways: (readonly Change[])[] = [];
  const tryFrom = (printed: readonly (typeof PRINTS)[number][]): void => {
    if (printed.length < music.barOf.length) {
      for (const each of PRINTS) tryFrom([...printed, each]);
      return;
    }
    if (!serves(music, string, printed, 0) && !serves(music, string, printed, 1)) return;
    ways.push(printed.flatMap((each, moment) => each.map(({ time }): Change => ({ string, moment, time }))));
  };
  tryFrom([]);
  const keyOf = ({ moment, time }: Change): string => `${moment}${time}`;
  const fewest = ways.sort((a, b) => a.length - b.length);
  const kept: (readonly Change[])[] = [];
  for (const way of fewest) {
    const own = new Set(way.map(keyOf));
    if (!kept.some((less) => less.every((change) => own.has(keyOf(change))))) kept.push(way);
  }
  return kept;
};

/** Changes without time, then changes: one hand sets all, and rests after each. */
const troubleOf = (graph: PlayGraph, changes: readonly Change[]): number => {
  const madeBefore = (moment: number, seconds: number, self: Change): boolean =>
    graph.into[moment]!.some((edge) => {
      const total = seconds + edge.seconds;
      if (total >= REST - 1e-9) return false;
      const other = changes.some((each) => each.moment === edge.from && each.moment !== self.moment);
      return other || madeBefore(edge.from, total, self);
    });
  const late = changes.filter((change) => {
    const isSecond = changes.some(
      ({ string, moment, time }) =>
        moment === change.moment &&
        string < change.string &&
        (time === null || change.time === null || time === change.time),
    );
    return isSecond || madeBefore(change.moment, 0, change);
  });
  return NO_TIME * late.length + PER_CHANGE * changes.length;
};

const leastTrouble = (music: SmallLevers): number => {
  const graph = graphOf(music);
  let least = Number.POSITIVE_INFINITY;
  const combine = (chosen: readonly Change[], string: number): void => {
    if (string === music.asked.length) least = Math.min(least, troubleOf(graph, chosen));
    else for (const way of waysAt[string]!) combine([...chosen, ...way], string + 1);
  };
  const waysAt = music.asked.map((_, string) => waysOf(music, string));
  combine([], 0);
  return least;
};

const planned = (music: SmallLevers, alike: boolean) => {
  const graph = graphOf(music);
  const jobs = jobsOf(music, graph, alike);
  const priceAt = (string: number, moment: number): number => PER_CHANGE + music.prices[string]![moment]!;
  const task: LeverTask = {
    slotsAt: (_, moment) => [slotOf(moment, 'left')],
    priceAt: (string, slot) => priceAt(string, momentOfSlot(slot)),
    leastPriceAt: priceAt,
    ...restsOfHands(graph, REST),
    noTime: NO_TIME,
    byTime: BY_TIME,
    printedSeconds: printedSeconds(graph),
    leverSeconds: REST,
  };
  return findLeverSchedule(jobs, task);
};

const troubleOfPlan = (music: SmallLevers, alike: boolean): number => {
  const { moves } = planned(music, alike);
  const late = moves.filter(({ tooSoon }) => tooSoon).length;
  return NO_TIME * late + PER_CHANGE * moves.length;
};

const someMusic = (bars: readonly number[], strings: number) => {
  const n = bars.length;
  const perMoment = <T>(value: fc.Arbitrary<T>) => fc.array(value, { minLength: n, maxLength: n });
  const perString = <T>(value: fc.Arbitrary<T>) =>
    fc.array(perMoment(value), { minLength: strings, maxLength: strings });
  return fc.record({
    barOf: fc.constant(bars),
    stepSeconds: perMoment(fc.constantFrom(1, 2)),
    playOrder: fc.constantFrom(...PLAY_ORDERS),
    asked: perString(fc.option(fc.constantFrom<Lever>(0, 1), { freq: 2 })),
    prices: perString(fc.integer({ min: 0, max: 20 })),
  });
};

const isAsGood = (music: SmallLevers): void => {
  const plan = planned(music, false);
  expect(plan.provenOptimal).toBe(true);
  expect(troubleOfPlan(music, false)).toBe(leastTrouble(music));
};

describe('changes of levers for one time of playing', () => {
  it('leave no more without time, and are no more, than the best of all choices for each pass', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 1), isAsGood), { numRuns: cases(300) });
    fc.assert(fc.property(someMusic([0, 1, 1, 2], 1), isAsGood), { numRuns: cases(300) });
    fc.assert(fc.property(someMusic([0, 1, 2], 2), isAsGood), { numRuns: cases(600) });
  });

  it('are made nowhere where changes that are alike each time do as well', () => {
    const isAlike = (music: SmallLevers): void => {
      const { moves } = planned(music, false);
      if (troubleOfPlan(music, false) < troubleOfPlan(music, true)) return;
      expect(moves.filter(({ byTime }) => byTime !== null)).toEqual([]);
    };
    fc.assert(fc.property(someMusic([0, 0, 1, 1, 2, 2], 2), isAlike), { numRuns: cases(600) });
  });
});

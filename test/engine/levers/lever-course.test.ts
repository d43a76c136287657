import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Side } from '../../../engine/harp/side.ts';
import { printedSeconds } from '../../../engine/levers/context.ts';
import { type LeverTask, restsOfHands } from '../../../engine/levers/course/lever-task.ts';
import { findLeverSchedule } from '../../../engine/levers/course/schedule.ts';
import { handOfSlot, momentOfSlot, type Slot, slotOf } from '../../../engine/levers/course/slots.ts';
import { listSubproblems } from '../../../engine/levers/course/subproblems.ts';
import { candidatePositions } from '../../../engine/sounding/candidate-positions.ts';
import type { Need } from '../../../engine/sounding/needs.ts';
import type { PlacedNeed } from '../../../engine/sounding/placed-needs.ts';
import type { PlayEdge, PlayGraph } from '../../../engine/time/play-graph.ts';
import { cases } from '../../thorough.ts';
import { graphOf, hearMoments, PLAY_ORDERS } from '../barred-moments.ts';
import { BY_TIME, jobsOf, type Lever, NO_TIME, PER_CHANGE, REST, type SmallLevers } from './small-levers.ts';

/** A part for trying. */
interface SmallMusic extends SmallLevers {
  /** By moment: the hands that are free, one at least. */
  readonly hands: readonly (readonly Side[])[];
}

const RIGHT_HAND = 50;

/**
 * Price of a plan, rule by rule: `stands[moment][string]` is where the levers stand. A change is printed where some
 * step of the music arrives with the lever elsewhere, and made by one of the hands that are free; it comes too soon if,
 * along some chain of steps, the same hand's change was printed less than the rest before, or if it has the lever of a
 * lower string to set at the same moment. Of all ways to share the changes between the hands the cheapest counts.
 */
const priceOf = (music: SmallMusic, graph: PlayGraph, stands: readonly (readonly Lever[])[]): number => {
  const strings = music.asked.map((_, i) => i);
  const printed = Array.from({ length: graph.moments }, (_, moment) =>
    strings
      .filter((string) =>
        graph.into[moment]!.some(({ from }) => stands[from]![string] !== stands[moment]![string]),
      )
      .map((string) => ({ string, moment })),
  ).flat();
  const cheapest = (shared: readonly Side[]): number => {
    const next = printed[shared.length];
    if (next !== undefined) {
      return Math.min(...music.hands[next.moment]!.map((hand) => cheapest([...shared, hand])));
    }
    const madeBefore = (moment: number, seconds: number, self: number): boolean =>
      graph.into[moment]!.some((edge) => {
        const total = seconds + edge.seconds;
        if (total >= REST - 1e-9) return false;
        const other = printed.some(
          (each, i) =>
            each.moment === edge.from && each.moment !== printed[self]!.moment && shared[i] === shared[self],
        );
        return other || madeBefore(edge.from, total, self);
      });
    return printed.reduce((sum, { string, moment }, i) => {
      const isSecond = printed.some(
        (each, j) => each.moment === moment && each.string < string && shared[j] === shared[i],
      );
      const isTooSoon = isSecond || madeBefore(moment, 0, i);
      const hand = shared[i] === 'right' ? RIGHT_HAND : 0;
      return sum + PER_CHANGE + music.prices[string]![moment]! + hand + (isTooSoon ? NO_TIME : 0);
    }, 0);
  };
  return cheapest([]);
};

const cheapestByTrying = (music: SmallMusic): number => {
  const graph = graphOf(music);
  const heard = new Set(hearMoments(music).map((each) => each.moment));
  const strings = music.asked.map((_, i) => i);
  const combinations = strings.reduce<Lever[][]>(
    (all) =>
      all.flatMap((some): Lever[][] => [
        [...some, 0],
        [...some, 1],
      ]),
    [[]],
  );
  let best = Number.POSITIVE_INFINITY;
  const stands: (readonly Lever[])[] = [];
  const tryFrom = (moment: number): void => {
    if (moment === music.barOf.length) {
      best = Math.min(best, priceOf(music, graph, stands));
      return;
    }
    for (const stand of heard.has(moment) ? combinations : combinations.slice(0, 1)) {
      const serves = strings.every(
        (string) => (music.asked[string]![moment] ?? stand[string]) === stand[string],
      );
      if (heard.has(moment) && !serves) continue;
      stands[moment] = stand;
      tryFrom(moment + 1);
    }
  };
  tryFrom(0);
  return best;
};

/** @param alike what is printed is made at every time of playing; else at one alone where that is better */
const planned = (music: SmallMusic, alike: boolean) => {
  const graph = graphOf(music);
  const jobs = jobsOf(music, graph, alike);
  const slotsAt = (moment: number): Slot[] => music.hands[moment]!.map((hand) => slotOf(moment, hand));
  const priceAt = (string: number, slot: Slot): number =>
    PER_CHANGE + music.prices[string]![momentOfSlot(slot)]! + (handOfSlot(slot) === 'right' ? RIGHT_HAND : 0);
  return findLeverSchedule(jobs, taskFor(graph, slotsAt, priceAt));
};

const taskFor = (
  graph: PlayGraph,
  slotsAt: (moment: number) => Slot[],
  priceAt: LeverTask['priceAt'],
): LeverTask => ({
  slotsAt: (_, moment) => slotsAt(moment),
  priceAt,
  leastPriceAt: (string, moment, time) =>
    Math.min(...slotsAt(moment).map((slot) => priceAt(string, slot, time))),
  ...restsOfHands(graph, REST),
  noTime: NO_TIME,
  byTime: BY_TIME,
  printedSeconds: printedSeconds(graph),
  leverSeconds: REST,
});

const LEFT_ALONE: readonly (readonly Side[])[] = [['left']];
const EITHER_HAND: readonly (readonly Side[])[] = [['left'], ['right'], ['left', 'right']];

const someMusic = (
  bars: readonly number[],
  strings: number,
  { orders = PLAY_ORDERS, asking = 2, hands = LEFT_ALONE } = {},
) => {
  const n = bars.length;
  const perMoment = <T>(value: fc.Arbitrary<T>) => fc.array(value, { minLength: n, maxLength: n });
  const perString = <T>(value: fc.Arbitrary<T>) =>
    fc.array(perMoment(value), { minLength: strings, maxLength: strings });
  return fc.record({
    barOf: fc.constant(bars),
    stepSeconds: perMoment(fc.constantFrom(1, 2)),
    playOrder: fc.constantFrom(...orders),
    asked: perString(fc.option(fc.constantFrom<Lever>(0, 1), { freq: asking })),
    prices: perString(fc.integer({ min: 0, max: 20 })),
    hands: perMoment(fc.constantFrom(...hands)),
  });
};

const costsTheLeast = (music: SmallMusic): void => {
  const { cost, provenOptimal } = planned(music, true);
  expect(provenOptimal).toBe(true);
  expect(cost).toBeCloseTo(cheapestByTrying(music), 6);
};

const STRAIGHT = { orders: [[0, 1, 2]], asking: 1 };

describe('the course of all levers', () => {
  it('costs what the best of all plans costs, repeats and jumps included', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 1, 2, 2], 2), costsTheLeast), { numRuns: cases(200) });
  });

  it('does so in thousands of shorter pieces', () => {
    fc.assert(fc.property(someMusic([0, 1, 1, 2], 2), costsTheLeast), { numRuns: cases(1000) });
  });

  it('does so with three strings that want the hand', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 3), costsTheLeast), { numRuns: cases(250) });
  });

  it('does so where a few notes leave long windows, straight through', () => {
    fc.assert(fc.property(someMusic([0, 0, 0, 1, 2, 2], 2, STRAIGHT), costsTheLeast), { numRuns: cases(30) });
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 3, STRAIGHT), costsTheLeast), { numRuns: cases(60) });
  });
});

describe('the course of all levers, shared between two hands', () => {
  const hands = EITHER_HAND;

  it('costs what the best of all plans costs, repeats and jumps included', () => {
    fc.assert(fc.property(someMusic([0, 1, 1, 2], 2, { hands }), costsTheLeast), { numRuns: cases(400) });
  });

  it('does so with three strings that want the hands, straight through', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 3, { ...STRAIGHT, hands }), costsTheLeast), {
      numRuns: cases(50),
    });
  });

  it('takes both hands for two levers in a rest that has time for one', () => {
    const both: SmallMusic = {
      barOf: [0, 0, 0],
      stepSeconds: [1, 1, 1],
      playOrder: [0],
      asked: [
        [0, null, 1],
        [0, null, 1],
      ],
      prices: [
        [0, 0, 500],
        [0, 0, 500],
      ],
      hands: [['left'], ['left', 'right'], ['left']],
    };
    const { moves } = planned(both, true);
    expect(moves.map(({ slot, tooSoon }) => [momentOfSlot(slot), handOfSlot(slot), tooSoon])).toEqual([
      [1, 'left', false],
      [1, 'right', false],
    ]);
    const { moves: alone } = planned({ ...both, hands: [['left'], ['left'], ['left']] }, true);
    expect(alone.filter(({ tooSoon }) => tooSoon)).toHaveLength(1);
  });
});

/** Levers that each go up once, somewhere from one moment to another of a straight run of steady moments. */
interface Rush {
  readonly seconds: number;
  readonly windows: readonly { readonly from: number; readonly length: number }[];
  /** By string and moment. */
  readonly extra: readonly (readonly number[])[];
  /** Price per moment that a change is made ahead of the end of its window. */
  readonly ahead: number;
  /** Both hands are free; else the left alone. */
  readonly handed: boolean;
}

const RUN = 12;

const rush = (strings: number, extra: fc.Arbitrary<number>, handed = false) =>
  fc.record({
    seconds: fc.constantFrom(0.5, 1, 2),
    windows: fc.array(fc.record({ from: fc.nat(5), length: fc.integer({ min: 1, max: 5 }) }), {
      minLength: strings,
      maxLength: strings,
    }),
    extra: fc.array(fc.array(extra, { minLength: RUN, maxLength: RUN }), {
      minLength: strings,
      maxLength: strings,
    }),
    ahead: fc.constantFrom(0, 1, 3),
    handed: fc.constant(handed),
  });

const priceInRush = ({ windows, extra, ahead }: Rush, string: number, moment: number): number => {
  const { from, length } = windows[string]!;
  return PER_CHANGE + extra[string]![moment]! + ahead * (from + length - moment);
};

const cheapestRushByTrying = (music: Rush): number => {
  const tooClose = (a: number, b: number): boolean => (b - a) * music.seconds < REST - 1e-9;
  const countLate = (placed: readonly number[]): number => {
    const sorted = [...placed].sort((a, b) => a - b);
    return sorted.filter((at, i) => i > 0 && tooClose(sorted[i - 1]!, at)).length;
  };
  let best = Number.POSITIVE_INFINITY;
  const tryString = (
    string: number,
    left: readonly number[],
    right: readonly number[],
    price: number,
  ): void => {
    const window = music.windows[string];
    if (price >= best) return;
    if (window === undefined) {
      best = Math.min(best, price + NO_TIME * (countLate(left) + countLate(right)));
      return;
    }
    for (let at = window.from + 1; at <= window.from + window.length; at += 1) {
      const sum = price + priceInRush(music, string, at);
      tryString(string + 1, [...left, at], right, sum);
      if (music.handed) tryString(string + 1, left, [...right, at], sum + RIGHT_HAND);
    }
  };
  tryString(0, [], [], 0);
  return best;
};

const plannedRush = (music: Rush) => {
  const step = (from: number): PlayEdge => ({ from, to: from + 1, seconds: music.seconds });
  const moments = Array.from({ length: RUN }, (_, i) => i);
  const graph: PlayGraph = {
    moments: RUN,
    start: 0,
    into: moments.map((at) => (at === 0 ? [] : [step(at - 1)])),
    outOf: moments.map((at) => (at === RUN - 1 ? [] : [step(at)])),
    played: moments,
  };
  const jobs = music.windows.flatMap(({ from, length }, string) => {
    const needs: PlacedNeed[] = [
      { need: { position: 0 } as unknown as Need, moment: from },
      { need: { position: 1 } as unknown as Need, moment: from + length },
    ];
    return listSubproblems(string, candidatePositions(needs, graph, 0).at, graph);
  });
  const slotsAt = (moment: number): Slot[] =>
    music.handed ? [slotOf(moment, 'left'), slotOf(moment, 'right')] : [slotOf(moment, 'left')];
  const priceAt = (string: number, slot: Slot): number =>
    priceInRush(music, string, momentOfSlot(slot)) + (handOfSlot(slot) === 'right' ? RIGHT_HAND : 0);
  return findLeverSchedule(jobs, taskFor(graph, slotsAt, priceAt));
};

const rushCostsTheLeast = (music: Rush): void => {
  const { cost, provenOptimal } = plannedRush(music);
  expect(provenOptimal).toBe(true);
  expect(cost).toBeCloseTo(cheapestRushByTrying(music), 6);
};

describe('many levers at a change of key', () => {
  it('are set at the best moments where all prices are alike, as at a double bar', () => {
    fc.assert(fc.property(rush(5, fc.constant(0)), rushCostsTheLeast), { numRuns: cases(400) });
  });

  it('are set at the best moments where each string has prices of its own', () => {
    fc.assert(fc.property(rush(5, fc.integer({ min: 0, max: 9 })), rushCostsTheLeast), {
      numRuns: cases(400),
    });
  });

  it('are shared between two hands at the least price', () => {
    fc.assert(fc.property(rush(4, fc.integer({ min: 0, max: 9 }), true), rushCostsTheLeast), {
      numRuns: cases(150),
    });
    fc.assert(fc.property(rush(4, fc.constant(0), true), rushCostsTheLeast), { numRuns: cases(150) });
  });

  it('are set one after the other in a long rest, twenty of them', () => {
    const music: Rush = {
      seconds: 2,
      windows: Array.from({ length: 20 }, (_, i) => ({ from: 0, length: RUN - 1 - (i % 3) })),
      extra: Array.from({ length: 20 }, () => Array.from({ length: RUN }, () => 0)),
      ahead: 1,
      handed: false,
    };
    const { moves, provenOptimal } = plannedRush(music);
    expect(moves).toHaveLength(20);
    expect(new Set(moves.map(({ slot }) => momentOfSlot(slot))).size).toBe(RUN - 1);
    expect(moves.filter(({ tooSoon: hurried }) => hurried)).toHaveLength(20 - (RUN - 1));
    expect(provenOptimal).toBe(true);
  });
});

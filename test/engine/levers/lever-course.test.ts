import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printedSeconds } from '../../../engine/levers/context.ts';
import type { LeverTask } from '../../../engine/levers/course/lever-task.ts';
import { findLeverSchedule } from '../../../engine/levers/course/schedule.ts';
import { listSubproblems } from '../../../engine/levers/course/subproblems.ts';
import { findMomentsTooCloseTo, findMomentsTooSoonAfter } from '../../../engine/levers/strings/free-hands.ts';
import { candidatePositions } from '../../../engine/sounding/candidate-positions.ts';
import type { Need } from '../../../engine/sounding/needs.ts';
import type { PlacedNeed } from '../../../engine/sounding/placed-needs.ts';
import type { PlayEdge, PlayGraph } from '../../../engine/time/play-graph.ts';
import { type BarredMoments, graphOf, hearMoments, PLAY_ORDERS } from '../barred-moments.ts';

const PER_CHANGE = 1000;
const NO_TIME = 1_000_000;
const REST = 1.5;

type Lever = 0 | 1;

/** A part for trying. */
interface SmallMusic extends BarredMoments {
  /** By string and moment: the lever asked for, or nothing. */
  readonly asked: readonly (readonly (Lever | null)[])[];
  readonly prices: readonly (readonly number[])[];
}

/**
 * Price of a plan, rule by rule: `stands[moment][string]` is where the levers stand. A change is printed where some
 * step of the music arrives with the lever elsewhere; it comes too soon if, along some chain of steps, another change
 * was printed less than the rest before, or if the lever of a lower string is printed at the same moment.
 */
const priceOf = (music: SmallMusic, graph: PlayGraph, stands: readonly (readonly Lever[])[]): number => {
  const strings = music.asked.map((_, i) => i);
  const isPrinted = (moment: number, string: number): boolean =>
    graph.into[moment]!.some(({ from }) => stands[from]![string] !== stands[moment]![string]);
  const printedBefore = (moment: number, seconds: number, self: readonly [number, number]): boolean =>
    graph.into[moment]!.some((edge) => {
      const total = seconds + edge.seconds;
      if (total >= REST - 1e-9) return false;
      const other = strings.some((string) => isPrinted(edge.from, string) && edge.from !== self[0]);
      return other || printedBefore(edge.from, total, self);
    });
  let price = 0;
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const printed = strings.filter((string) => isPrinted(moment, string));
    printed.forEach((string, place) => {
      const hurried = place > 0 || printedBefore(moment, 0, [moment, string]);
      price += PER_CHANGE + music.prices[string]![moment]! + (hurried ? NO_TIME : 0);
    });
  }
  return price;
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

const planned = (music: SmallMusic) => {
  const graph = graphOf(music);
  const heard = new Set(hearMoments(music).map((each) => each.moment));
  const jobs = music.asked.flatMap((asked, string) => {
    const needs = asked.flatMap((position, moment): PlacedNeed[] =>
      position === null || !heard.has(moment) ? [] : [{ need: { position } as unknown as Need, moment }],
    );
    return listSubproblems(string, candidatePositions(needs, graph, 0).at, graph);
  });
  const task: LeverTask = {
    priceAt: (string, moment) => PER_CHANGE + music.prices[string]![moment]!,
    tooSoonAfter: findMomentsTooSoonAfter(graph, REST),
    tooCloseTo: findMomentsTooCloseTo(graph, REST),
    noTime: NO_TIME,
    printedSeconds: printedSeconds(graph),
    leverSeconds: REST,
  };
  return findLeverSchedule(jobs, task);
};

const someMusic = (bars: readonly number[], strings: number, orders = PLAY_ORDERS, asking = 2) => {
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
  });
};

const costsTheLeast = (music: SmallMusic): void => {
  const { cost, provenOptimal } = planned(music);
  expect(provenOptimal).toBe(true);
  expect(cost).toBeCloseTo(cheapestByTrying(music), 6);
};

describe('the course of all levers', () => {
  it('costs what the best of all plans costs, repeats and jumps included', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 1, 2, 2], 2), costsTheLeast), { numRuns: 200 });
  });

  it('does so in thousands of shorter pieces', () => {
    fc.assert(fc.property(someMusic([0, 1, 1, 2], 2), costsTheLeast), { numRuns: 2000 });
  });

  it('does so with three strings that want the hand', () => {
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 3), costsTheLeast), { numRuns: 500 });
  });

  it('does so where a few notes leave long windows, straight through', () => {
    fc.assert(fc.property(someMusic([0, 0, 0, 1, 2, 2], 2, [[0, 1, 2]], 1), costsTheLeast), { numRuns: 80 });
    fc.assert(fc.property(someMusic([0, 0, 1, 2], 3, [[0, 1, 2]], 1), costsTheLeast), { numRuns: 150 });
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
}

const RUN = 12;

const rush = (strings: number, extra: fc.Arbitrary<number>) =>
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
  });

const priceInRush = ({ windows, extra, ahead }: Rush, string: number, moment: number): number => {
  const { from, length } = windows[string]!;
  return PER_CHANGE + extra[string]![moment]! + ahead * (from + length - moment);
};

const cheapestRushByTrying = (music: Rush): number => {
  const tooClose = (a: number, b: number): boolean => (b - a) * music.seconds < REST - 1e-9;
  let best = Number.POSITIVE_INFINITY;
  const tryString = (string: number, placed: readonly number[], price: number): void => {
    const window = music.windows[string];
    if (window === undefined) {
      const sorted = [...placed].sort((a, b) => a - b);
      const hurried = sorted.filter((at, i) => i > 0 && tooClose(sorted[i - 1]!, at)).length;
      best = Math.min(best, price + hurried * NO_TIME);
      return;
    }
    for (let at = window.from + 1; at <= window.from + window.length; at += 1) {
      tryString(string + 1, [...placed, at], price + priceInRush(music, string, at));
    }
  };
  tryString(0, [], 0);
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
  };
  const jobs = music.windows.flatMap(({ from, length }, string) => {
    const needs: PlacedNeed[] = [
      { need: { position: 0 } as unknown as Need, moment: from },
      { need: { position: 1 } as unknown as Need, moment: from + length },
    ];
    return listSubproblems(string, candidatePositions(needs, graph, 0).at, graph);
  });
  return findLeverSchedule(jobs, {
    priceAt: (string, moment) => priceInRush(music, string, moment),
    tooSoonAfter: findMomentsTooSoonAfter(graph, REST),
    tooCloseTo: findMomentsTooCloseTo(graph, REST),
    noTime: NO_TIME,
    printedSeconds: printedSeconds(graph),
    leverSeconds: REST,
  });
};

const rushCostsTheLeast = (music: Rush): void => {
  const { cost, provenOptimal } = plannedRush(music);
  expect(provenOptimal).toBe(true);
  expect(cost).toBeCloseTo(cheapestRushByTrying(music), 6);
};

describe('many levers at a change of key', () => {
  it('are set at the best moments where all prices are alike, as at a double bar', () => {
    fc.assert(fc.property(rush(5, fc.constant(0)), rushCostsTheLeast), { numRuns: 400 });
  });

  it('are set at the best moments where each string has prices of its own', () => {
    fc.assert(fc.property(rush(5, fc.integer({ min: 0, max: 9 })), rushCostsTheLeast), { numRuns: 400 });
  });

  it('are set one after the other in a long rest, twenty of them', () => {
    const music: Rush = {
      seconds: 2,
      windows: Array.from({ length: 20 }, (_, i) => ({ from: 0, length: RUN - 1 - (i % 3) })),
      extra: Array.from({ length: 20 }, () => Array.from({ length: RUN }, () => 0)),
      ahead: 1,
    };
    const { moves, provenOptimal } = plannedRush(music);
    expect(moves).toHaveLength(20);
    expect(new Set(moves.map(({ moment }) => moment)).size).toBe(RUN - 1);
    expect(moves.filter(({ tooSoon: hurried }) => hurried)).toHaveLength(20 - (RUN - 1));
    expect(provenOptimal).toBe(true);
  });
});

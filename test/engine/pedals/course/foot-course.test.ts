import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../../../engine/harp/setting.ts';
import type { FootTask } from '../../../../engine/pedals/course/foot-changes.ts';
import { findFootSchedule } from '../../../../engine/pedals/course/foot-schedule.ts';
import { DEFAULT_WEIGHTS } from '../../../../engine/pedals/weights.ts';
import { candidatePositions } from '../../../../engine/sounding/candidate-positions.ts';
import type { Need } from '../../../../engine/sounding/needs.ts';
import type { PlacedNeed } from '../../../../engine/sounding/placed-needs.ts';
import type { PlayEdge, PlayGraph } from '../../../../engine/time/play-graph.ts';
import { cases } from '../../../thorough.ts';
import { type BarredMoments, graphOf, hearMoments, PLAY_ORDERS } from '../../barred-moments.ts';

const PER_MOVE = 1000;
const TOO_SOON = 1_000_000;
const REST = 1.5;
const STARTS_ELSEWHERE = 30;
const RESTORING = 7;
const CLOSE = 20;

/** A part for trying. */
interface SmallMusic extends BarredMoments {
  /** By pedal and moment: the position asked for, or nothing. */
  readonly asked: readonly (readonly (Position | null)[])[];
  readonly prices: readonly (readonly number[])[];
  readonly comfortableSeconds: number;
}

/** The position that the piece should begin with: that of the first note of the pedal. */
const wantedFirst = ({ asked }: SmallMusic, pedal: number): Position =>
  asked[pedal]!.find((position) => position !== null) ?? 0;

/** What a plan that serves every note comes to, goal by goal in the order of the goals. */
interface Goals {
  readonly tooSoon: number;
  readonly moves: number;
  /** Prices of the start and of each move's place, of what only jumps ask for, and of close moves. */
  readonly comfort: number;
}

/**
 * What a plan comes to, rule by rule: `stands[moment][pedal]` is where the pedals stand. A move is printed where some step
 * of the music arrives with the pedal elsewhere; it is too soon if, along some chain of steps, the foot moved less
 * than the rest before, or if a pedal of a lower number moves on the same step. As the player reads on, a foot that
 * moved shortly before pays for that, more the shorter it was.
 */
const goalsOf = (music: SmallMusic, graph: PlayGraph, stands: readonly (readonly Position[])[]): Goals => {
  const movedOn = ({ from, to }: PlayEdge): number[] =>
    [0, 1].filter((pedal) => stands[from]![pedal] !== stands[to]![pedal]);
  const movesAt = (moment: number): boolean => graph.into[moment]!.some((edge) => movedOn(edge).length > 0);
  const movedWithin = (moment: number, seconds: number): boolean =>
    seconds < REST &&
    (movesAt(moment) || graph.into[moment]!.some((edge) => movedWithin(edge.from, seconds + edge.seconds)));
  const stepInto = (moment: number): PlayEdge | undefined =>
    graph.into[moment]!.find((edge) => edge.from === moment - 1);
  const secondsSinceMove = (moment: number): number => {
    const step = stepInto(moment);
    if (step === undefined) return Number.POSITIVE_INFINITY;
    const before = stepInto(moment - 1);
    const movedThere = before !== undefined && movedOn(before).length > 0;
    return step.seconds + (movedThere ? 0 : secondsSinceMove(moment - 1));
  };
  const closeness = (seconds: number): number => {
    if (seconds >= music.comfortableSeconds) return 0;
    if (seconds <= REST) return CLOSE;
    const left = (music.comfortableSeconds - seconds) / (music.comfortableSeconds - REST);
    return CLOSE * left * left;
  };
  let [tooSoon, moves] = [0, 0];
  let comfort =
    STARTS_ELSEWHERE * [0, 1].filter((pedal) => stands[0]![pedal] !== wantedFirst(music, pedal)).length;
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const readOn = stepInto(moment);
    if (readOn !== undefined && movedOn(readOn).length > 0) comfort += closeness(secondsSinceMove(moment));
    for (const pedal of [0, 1]) {
      const steps = graph.into[moment]!.filter((edge) => movedOn(edge).includes(pedal));
      if (steps.length === 0) continue;
      const hurried = steps.some(
        (edge) => movedOn(edge)[0] !== pedal || movedWithin(edge.from, edge.seconds),
      );
      const restores = steps.every((edge) => edge.from >= moment);
      moves += 1;
      tooSoon += hurried ? 1 : 0;
      comfort += music.prices[pedal]![moment]! + (restores ? RESTORING : 0);
    }
  }
  return { tooSoon, moves, comfort };
};

/** The best plan by `isBetter`, of all that serve every note: a pedal is asked for one position at a moment, so there are some. */
const bestByTrying = (
  music: SmallMusic,
  positions: readonly Position[],
  isBetter: (a: Goals, b: Goals) => boolean,
): Goals => {
  const graph = graphOf(music);
  const heard = new Set(hearMoments(music).map((each) => each.moment));
  const choices = (moment: number): readonly (readonly Position[])[] => {
    const [left, right] = [0, 1].map((pedal) => {
      const asked = music.asked[pedal]![moment]!;
      return asked === null ? positions : [asked];
    });
    return left!.flatMap((a) => right!.map((b) => [a, b]));
  };
  const standsAt = music.barOf.map((_, moment) =>
    heard.has(moment) ? choices(moment) : choices(moment).slice(0, 1),
  );
  let best: Goals | null = null;
  const stands: (readonly Position[])[] = [];
  const tryFrom = (moment: number): void => {
    if (moment === music.barOf.length) {
      const goals = goalsOf(music, graph, stands);
      if (best === null || isBetter(goals, best)) best = goals;
      return;
    }
    for (const stand of standsAt[moment]!) {
      stands[moment] = stand;
      tryFrom(moment + 1);
    }
  };
  tryFrom(0);
  return best!;
};

const priceOf = ({ tooSoon, moves, comfort }: Goals): number =>
  TOO_SOON * tooSoon + PER_MOVE * moves + comfort;

/** The price of the cheapest plan. */
const cheapestByTrying = (music: SmallMusic, positions: readonly Position[]): number =>
  priceOf(bestByTrying(music, positions, (a, b) => priceOf(a) < priceOf(b)));

const GOALS = ['tooSoon', 'moves', 'comfort'] as const;

/** The first goal in which two plans differ decides. */
const isBetterInOrder = (a: Goals, b: Goals): boolean => {
  const goal = GOALS.find((each) => a[each] !== b[each]);
  return goal !== undefined && a[goal] < b[goal];
};

const taskOf = (music: SmallMusic): FootTask => {
  const graph = graphOf(music);
  return {
    choices: music.asked.map((asked) => {
      const needs = asked.flatMap((position, moment): PlacedNeed[] =>
        position === null ? [] : [{ need: { position } as unknown as Need, moment }],
      );
      return candidatePositions(needs, graph, 0).at;
    }),
    graph,
    footRestSeconds: REST,
    priceAt: (pedal, moment) => music.prices[pedal]![moment]!,
    perMove: PER_MOVE,
    priceAtStart: (pedal, position) => (position === wantedFirst(music, pedal) ? 0 : STARTS_ELSEWHERE),
    restoring: RESTORING,
    tooSoon: TOO_SOON,
    spacing: { price: CLOSE, comfortableSeconds: music.comfortableSeconds },
    together: null,
  };
};

const someMusic = (
  bars: readonly number[],
  positions: readonly Position[],
  discomforts: readonly number[] = Array.from({ length: 21 }, (_, price) => price),
) => {
  const n = bars.length;
  const perMoment = <T>(value: fc.Arbitrary<T>) => fc.array(value, { minLength: n, maxLength: n });
  const asked = perMoment(fc.option(fc.constantFrom(...positions), { freq: 2 }));
  const prices = perMoment(fc.constantFrom(...discomforts));
  return fc.record({
    barOf: fc.constant(bars),
    stepSeconds: perMoment(fc.constantFrom(1, 2)),
    playOrder: fc.constantFrom(...PLAY_ORDERS),
    asked: fc.tuple(asked, asked),
    prices: fc.tuple(prices, prices),
    comfortableSeconds: fc.constantFrom(0, 1, 2.5, 3.5, 5.5),
  });
};

describe('the course of a foot', () => {
  it('costs what the best of all plans costs, repeats and jumps included', () => {
    fc.assert(
      fc.property(someMusic([0, 0, 1, 1, 2, 2], [0, 1]), (music) => {
        expect(findFootSchedule(taskOf(music)).cost).toBe(cheapestByTrying(music, [0, 1]));
      }),
      { numRuns: cases(300) },
    );
  });

  it('does so in thousands of shorter pieces', () => {
    fc.assert(
      fc.property(someMusic([0, 1, 1, 2], [0, 1]), (music) => {
        expect(findFootSchedule(taskOf(music)).cost).toBe(cheapestByTrying(music, [0, 1]));
      }),
      { numRuns: cases(3000) },
    );
  });

  it('finds no better plan with all three positions at every moment, be it when every state but the most promising had to be left', () => {
    fc.assert(
      fc.property(someMusic([0, 0, 1, 2], [-1, 0, 1]), (music) => {
        const hasty = findFootSchedule(taskOf(music), {
          maxStates: 1,
          beamWidth: 1,
          maxStatesInAll: 1_000_000,
        });
        const best = cheapestByTrying(music, [-1, 0, 1]);
        expect([findFootSchedule(taskOf(music)).cost, hasty.cost]).toEqual([best, best]);
      }),
      { numRuns: cases(300) },
    );
  });

  it('is the same when what cannot come to less is left out', () => {
    const music = fc.oneof(
      someMusic([0, 0, 1, 2], [-1, 0, 1]),
      someMusic([0, 0, 0, 1, 1, 1, 2, 2, 2], [-1, 0, 1]),
    );
    fc.assert(
      fc.property(music, fc.boolean(), (each, together) => {
        const task = { ...taskOf(each), together: together ? TOO_SOON / 10 : null };
        const hasty = findFootSchedule(task, { maxStates: 1, beamWidth: 1, maxStatesInAll: 1_000_000 });
        const patient = findFootSchedule(task, { maxStates: 1_000_000, beamWidth: 1, maxStatesInAll: 0 });
        expect([hasty.cost, hasty.provenOptimal]).toEqual([patient.cost, true]);
      }),
      { numRuns: cases(500) },
    );
  });

  it('has the fewest moves without time, then the fewest moves, then the most comfort, by the usual prices', () => {
    const { move, footTooBusy } = DEFAULT_WEIGHTS;
    const discomforts = [0, 1, 40, 250, 470];
    fc.assert(
      fc.property(someMusic([0, 0, 1, 1, 2], [0, 1], discomforts), (music) => {
        const task = { ...taskOf(music), perMove: move, tooSoon: footTooBusy };
        const best = bestByTrying(music, [0, 1], isBetterInOrder);
        const { cost } = findFootSchedule(task);
        expect(cost).toBe(footTooBusy * best.tooSoon + move * best.moves + best.comfort);
      }),
      { numRuns: cases(300) },
    );
  });

  it('says so when the search was given up', () => {
    fc.assert(
      fc.property(someMusic([0, 0, 1, 1, 2, 2], [-1, 0, 1]), (music) => {
        const task = taskOf(music);
        const given = findFootSchedule(task, { maxStates: 1, beamWidth: 1, maxStatesInAll: 0 });
        const best = findFootSchedule(task);
        expect(given.cost).toBeGreaterThanOrEqual(best.cost);
        const hasChoice = task.choices.some((at) => at.some((positions) => positions.length > 1));
        expect(given.provenOptimal).toBe(!hasChoice);
      }),
      { numRuns: cases(300) },
    );
  });

  it('prints what it pays for', () => {
    fc.assert(
      fc.property(someMusic([0, 0, 1, 1, 2, 2], [-1, 0, 1]), (music) => {
        const spacing = { price: 0, comfortableSeconds: 0 };
        const task = { ...taskOf(music), priceAtStart: () => 0, restoring: 0, spacing };
        const { moves, cost } = findFootSchedule(task);
        const paid = moves.map(
          (move) =>
            PER_MOVE + music.prices[move.pedal]![move.moment]! + (move.manner === 'too-soon' ? TOO_SOON : 0),
        );
        expect(paid.reduce((sum, each) => sum + each, 0)).toBe(cost);
      }),
      { numRuns: cases(1000) },
    );
  });
});

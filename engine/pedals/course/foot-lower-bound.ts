import { isEarlier } from '../../time/rested.ts';
import { changesForArrival, costOfMoves, type FootTask } from './foot-changes.ts';
import { type FootPositions, footPositionsByMoment, positionOf } from './foot-positions.ts';
import { type FootState, roundedUntilRested } from './foot-state.ts';
import { advanceStates } from './foot-steps.ts';
import { priceOfSpacing } from './spacing.ts';

/** The least that the moments after one can cost a foot that has come there so: never more than the true cost. */
export type LowerBound = (moment: number, state: FootState) => number;

/**
 * What is to come costs no less than the moves of each pedal by itself, and besides them the haste that any course
 * of the foot is in, and what its moves follow each other closely for.
 */
export const footLowerBound = (
  task: FootTask,
  choices: readonly (readonly FootPositions[])[],
): LowerBound => {
  const haste = tooSoonLowerBound(task, choices);
  const moves = pedalsLowerBound(task);
  return (moment, state) => haste(moment, state) + moves(moment, state);
};

/**
 * Bounds the price of haste by the printed order alone: as if the music never jumped, came to a moment that only a
 * jump reaches with the pedals in any position, and moves cost nothing in themselves. Each jump can but ask for more
 * moves, and leave them less time. Linear in the moments.
 */
const tooSoonLowerBound = (asked: FootTask, choices: readonly (readonly FootPositions[])[]): LowerBound => {
  const { tooSoon } = asked;
  const together = asked.together === null ? null : Math.min(asked.together, tooSoon);
  const task: FootTask = { ...asked, perMove: 0, priceAt: () => 0, together };
  const times = timesByMoment(task);
  const costs: Float64Array[] = [];
  for (let moment = task.graph.moments - 1; moment >= 0; moment -= 1) {
    costs[moment] = costsFrom(task, moment, choices, times, costs[moment + 1]);
  }
  return (moment, state) => {
    const waited = lastPlace(times[moment]!, longestSince(task, state));
    const place = choices[moment]!.indexOf(state.positions) * times[moment]!.length + waited;
    return costs[moment]![place]!;
  };
};

/** How long at the most it is since the foot moved, by either of the times that a state holds. */
const longestSince = ({ spacing }: FootTask, { since, sinceRead }: FootState): number =>
  sinceRead === Number.POSITIVE_INFINITY ? Math.max(since, spacing.comfortableSeconds) : sinceRead;

/** The time from which on nothing depends any more on how long ago the foot moved. */
const longestFelt = ({ footRestSeconds, spacing }: FootTask): number =>
  Math.max(footRestSeconds, spacing.comfortableSeconds);

/** By moment, how long ago a foot that follows the printed order may have moved: ascending, the last infinite. */
const timesByMoment = (task: FootTask): (readonly number[])[] => {
  const { graph } = task;
  const felt = longestFelt(task);
  const times: (readonly number[])[] = [];
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
    const before = step === undefined ? [] : times[moment - 1]!;
    const aged = before.map((since) => roundedUntilRested(since + step!.seconds, felt));
    times[moment] = [...new Set([0, ...aged, Number.POSITIVE_INFINITY])].sort((a, b) => a - b);
  }
  return times;
};

/** The least cost after a moment, by stand and time since the last move. */
const costsFrom = (
  task: FootTask,
  moment: number,
  choices: readonly (readonly FootPositions[])[],
  times: readonly (readonly number[])[],
  after: Float64Array | undefined,
): Float64Array => {
  const here = choices[moment]!;
  const sinces = times[moment]!;
  const costs = new Float64Array(here.length * sinces.length);
  if (after === undefined) return costs;
  const step = task.graph.outOf[moment]!.find((edge) => edge.to === moment + 1);
  if (step === undefined) return costs.fill(after.reduce((a, b) => Math.min(a, b)));
  const next = { moment: moment + 1, stands: choices[moment + 1]!, times: times[moment + 1]!, costs: after };
  here.forEach((positions, i) => {
    sinces.forEach((since, j) => {
      const arrival = { positions, since: roundedUntilRested(since + step.seconds, longestFelt(task)) };
      costs[i * sinces.length + j] = cheapestStep(task, arrival, next);
    });
  });
  return costs;
};

interface NextMoment {
  readonly moment: number;
  readonly stands: readonly FootPositions[];
  readonly times: readonly number[];
  readonly costs: Float64Array;
}

const cheapestStep = (
  task: FootTask,
  arrival: { readonly positions: FootPositions; readonly since: number },
  { moment, stands: choices, times, costs }: NextMoment,
): number => {
  const waited = lastPlace(times, arrival.since);
  const spacing = priceOfSpacing(task.spacing, task.footRestSeconds, arrival.since);
  let least = Number.POSITIVE_INFINITY;
  choices.forEach((positions, place) => {
    const changes = changesForArrival(task, arrival, positions);
    const still = changes.printed === 0;
    const cost =
      costOfMoves(task, changes, moment, [arrival], positions) +
      (still ? 0 : spacing) +
      costs[place * times.length + (still ? waited : 0)]!;
    if (cost < least) least = cost;
  });
  return least;
};

/** The place of a time, or of the next longer one, which can only be cheaper. */
const lastPlace = (times: readonly number[], since: number): number => {
  let place = 0;
  while (isEarlier(times[place]!, since)) place += 1;
  return place;
};

/**
 * The least cost of the moves to come, each pedal by itself and unhurried: exact but for the pedals' getting in each
 * other's way, since prices are each pedal's own.
 */
const pedalsLowerBound = (task: FootTask): LowerBound => {
  const pedals = task.choices.map((_, pedal) => costsOfPedal(task, pedal));
  return (moment, state) =>
    pedals.reduce((sum, costs, pedal) => sum + costs[moment]!.get(memoryOf(state, pedal))!, 0);
};

/** By moment, the least cost after it by what the moves of a pedal go by. */
type CostsByMemory = ReadonlyMap<string, number>;

/** What is remembered of one pedal: where it stands, and at the other ends of the open jumps. */
const memoryOf = ({ positions, open }: FootState, pedal: number): string => {
  let memory = `${positionOf(positions, pedal)}`;
  for (const [at, landing] of open.landings) {
    memory += `;L${at}:${positionOf(landing.positions, pedal)},${(landing.printed >> pedal) & 1}`;
  }
  for (const [from, departure] of open.departures) {
    memory += `;D${from}:${positionOf(departure.positions, pedal)}`;
  }
  return memory;
};

/** A step of the pedal from one memory to the next, and its price. */
interface Step {
  readonly from: string;
  readonly to: string;
  readonly price: number;
}

/** The task of one pedal alone, for a foot that needs no time. */
export const singlePedalTask = (task: FootTask, pedal: number): FootTask => ({
  ...task,
  choices: [task.choices[pedal]!],
  priceAt: (_, ...move) => task.priceAt(pedal, ...move),
  priceAtStart: (_, position) => task.priceAtStart(pedal, position),
  footRestSeconds: 0,
  tooSoon: 0,
  spacing: { price: 0, comfortableSeconds: 0 },
  together: null,
});

const costsOfPedal = (foot: FootTask, pedal: number): readonly CostsByMemory[] => {
  const task = singlePedalTask(foot, pedal);
  const { steps, last } = stepsOfPedal(task);
  const costs: CostsByMemory[] = [];
  let after: CostsByMemory = new Map(last.map((state) => [memoryOf(state, 0), 0]));
  for (let moment = task.graph.moments - 1; moment >= 0; moment -= 1) {
    costs[moment] = after;
    after = cheapestSteps(steps[moment]!, after);
  }
  return costs;
};

const cheapestSteps = (steps: readonly Step[], after: CostsByMemory): CostsByMemory => {
  const costs = new Map<string, number>();
  for (const { from, to, price } of steps) {
    const cost = price + after.get(to)!;
    if (cost < (costs.get(from) ?? Number.POSITIVE_INFINITY)) costs.set(from, cost);
  }
  return costs;
};

/** All the ways that the pedal can go: the steps into each moment, and where they end. */
const stepsOfPedal = (
  task: FootTask,
): { readonly steps: readonly Step[][]; readonly last: readonly FootState[] } => {
  const choices = footPositionsByMoment(task.choices, task.graph.moments);
  const steps: Step[][] = [[]];
  let states = advanceStates(task, 0, choices[0]!, []);
  for (let moment = 1; moment < task.graph.moments; moment += 1) {
    const next = new Map<string, FootState>();
    steps[moment] = states.flatMap((before) =>
      advanceStates(task, moment, choices[moment]!, [{ ...before, cost: 0 }]).map((state): Step => {
        const to = memoryOf(state, 0);
        next.set(to, state);
        return { from: memoryOf(before, 0), to, price: state.cost };
      }),
    );
    states = [...next.values()];
  }
  return { steps, last: states };
};

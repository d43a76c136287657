import { isEarlier } from '../../time/rested.ts';
import { capped, type State } from './foot-state.ts';
import { passMoment } from './foot-steps.ts';
import { costOfMoves, type FootTask, printOn } from './printing.ts';
import { positionIn, type Stand, standsByMoment } from './stand.ts';

/** The least that the moments after one can cost a foot that has come there so: never more than the true cost. */
export type LeastToGo = (moment: number, state: State) => number;

/**
 * What is to come costs no less than the moves of each pedal by itself, and besides them the haste that any course
 * of the foot is in.
 */
export const boundFootCourse = (task: FootTask, stands: readonly (readonly Stand[])[]): LeastToGo => {
  const haste = boundHaste(task, stands);
  const moves = boundPedals(task);
  return (moment, state) => haste(moment, state) + moves(moment, state);
};

/**
 * Bounds the price of haste by the printed order alone: as if the music never jumped, came to a moment that only a
 * jump reaches with the pedals in any position, and moves cost nothing in themselves. Each jump can but ask for more
 * moves, and leave them less time. Linear in the moments.
 */
const boundHaste = (asked: FootTask, stands: readonly (readonly Stand[])[]): LeastToGo => {
  const { tooSoon } = asked;
  const together = asked.together === null ? null : Math.min(asked.together, tooSoon);
  const task: FootTask = { ...asked, perMove: 0, priceAt: () => 0, together };
  const times = timesByMoment(task);
  const costs: Float64Array[] = [];
  for (let moment = task.graph.moments - 1; moment >= 0; moment -= 1) {
    costs[moment] = costsFrom(task, moment, stands, times, costs[moment + 1]);
  }
  return (moment, { stand, since }) => {
    const place = stands[moment]!.indexOf(stand) * times[moment]!.length + lastPlace(times[moment]!, since);
    return costs[moment]![place]!;
  };
};

/** By moment, how long ago a foot that follows the printed order may have moved: ascending, the last infinite. */
const timesByMoment = ({ graph, restSeconds }: FootTask): (readonly number[])[] => {
  const times: (readonly number[])[] = [];
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
    const before = step === undefined ? [] : times[moment - 1]!;
    const aged = before.map((since) => capped(since + step!.seconds, restSeconds));
    times[moment] = [...new Set([0, ...aged, Number.POSITIVE_INFINITY])].sort((a, b) => a - b);
  }
  return times;
};

/** The least cost after a moment, by stand and time since the last move. */
const costsFrom = (
  task: FootTask,
  moment: number,
  stands: readonly (readonly Stand[])[],
  times: readonly (readonly number[])[],
  after: Float64Array | undefined,
): Float64Array => {
  const here = stands[moment]!;
  const sinces = times[moment]!;
  const costs = new Float64Array(here.length * sinces.length);
  if (after === undefined) return costs;
  const step = task.graph.outOf[moment]!.find((edge) => edge.to === moment + 1);
  if (step === undefined) return costs.fill(after.reduce((a, b) => Math.min(a, b)));
  const next = { moment: moment + 1, stands: stands[moment + 1]!, times: times[moment + 1]!, costs: after };
  here.forEach((stand, i) => {
    sinces.forEach((since, j) => {
      const arrival = { stand, since: capped(since + step.seconds, task.restSeconds) };
      costs[i * sinces.length + j] = cheapestStep(task, arrival, next);
    });
  });
  return costs;
};

interface NextMoment {
  readonly moment: number;
  readonly stands: readonly Stand[];
  readonly times: readonly number[];
  readonly costs: Float64Array;
}

const cheapestStep = (
  task: FootTask,
  arrival: { readonly stand: Stand; readonly since: number },
  { moment, stands, times, costs }: NextMoment,
): number => {
  const waited = lastPlace(times, arrival.since);
  let least = Number.POSITIVE_INFINITY;
  stands.forEach((stand, place) => {
    const printing = printOn(task, arrival, stand);
    const time = printing.printed === 0 ? waited : 0;
    const cost = costOfMoves(task, printing, moment, [arrival], stand) + costs[place * times.length + time]!;
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
const boundPedals = (task: FootTask): LeastToGo => {
  const pedals = task.choices.map((_, pedal) => costsOfPedal(task, pedal));
  return (moment, state) =>
    pedals.reduce((sum, costs, pedal) => sum + costs[moment]!.get(memoryOf(state, pedal))!, 0);
};

/** By moment, the least cost after it by what the moves of a pedal go by. */
type CostsByMemory = ReadonlyMap<string, number>;

/** What is remembered of one pedal: where it stands, and at the other ends of the open jumps. */
const memoryOf = ({ stand, open }: State, pedal: number): string => {
  let memory = `${positionIn(stand, pedal)}`;
  for (const [at, landing] of open.landings) {
    memory += `;L${at}:${positionIn(landing.stand, pedal)},${(landing.printed >> pedal) & 1}`;
  }
  for (const [from, departure] of open.departures) {
    memory += `;D${from}:${positionIn(departure.stand, pedal)}`;
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
export const unhurried = (task: FootTask, pedal: number): FootTask => ({
  ...task,
  choices: [task.choices[pedal]!],
  priceAt: (_, ...move) => task.priceAt(pedal, ...move),
  priceAtStart: (_, position) => task.priceAtStart(pedal, position),
  restSeconds: 0,
  tooSoon: 0,
  together: null,
});

const costsOfPedal = (foot: FootTask, pedal: number): readonly CostsByMemory[] => {
  const task = unhurried(foot, pedal);
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
): { readonly steps: readonly Step[][]; readonly last: readonly State[] } => {
  const stands = standsByMoment(task.choices, task.graph.moments);
  const steps: Step[][] = [[]];
  let states = passMoment(task, 0, stands[0]!, []);
  for (let moment = 1; moment < task.graph.moments; moment += 1) {
    const next = new Map<string, State>();
    steps[moment] = states.flatMap((before) =>
      passMoment(task, moment, stands[moment]!, [{ ...before, cost: 0 }]).map((state): Step => {
        const to = memoryOf(state, 0);
        next.set(to, state);
        return { from: memoryOf(before, 0), to, price: state.cost };
      }),
    );
    states = [...next.values()];
  }
  return { steps, last: states };
};

import type { LeastToGo } from './foot-bound.ts';
import type { State } from './foot-state.ts';
import { passMoment } from './foot-steps.ts';
import type { FootTask } from './printing.ts';
import { positionIn, standsByMoment } from './stand.ts';

/**
 * The least cost of the moves to come, each pedal by itself and unhurried: exact but for the pedals' getting in each
 * other's way, since prices are each pedal's own.
 */
export const boundPedals = (task: FootTask): LeastToGo => {
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

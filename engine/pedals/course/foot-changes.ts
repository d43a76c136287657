import type { Position } from '../../harp/setting.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import {
  type FootPositions,
  movedPedals,
  type PedalMask,
  pedalIndices,
  positionOf,
} from './foot-positions.ts';
import type { Spacing } from './spacing.ts';

/** What one foot has to choose from, and what each choice costs. */
export interface FootTask {
  /** Positions to consider, by pedal of the foot and by moment, each list in ascending order. */
  readonly choices: readonly (readonly (readonly Position[])[])[];
  readonly graph: PlayGraph;
  readonly footRestSeconds: number;
  /** Price of printing a move of a pedal to a position at a moment, over and above `perMove`. */
  readonly priceAt: (pedal: number, moment: number, from: Position, to: Position) => number;
  readonly perMove: number;
  /** Price of beginning the piece with a pedal in a position. */
  readonly priceAtStart: (pedal: number, position: Position) => number;
  /** Price, on top, of a move that only a jump back makes necessary where it lands. */
  readonly restoring: number;
  /** Price of a move for which the foot has no time. */
  readonly tooSoon: number;
  readonly spacing: Spacing;
  /** Price of two neighbouring pedals taken together in one direction; null where that is not allowed. */
  readonly together: number | null;
}

/** One pedal's move as printed: it holds whenever the music comes by. */
export interface FootMove {
  readonly pedal: number;
  readonly moment: number;
  readonly from: Position;
  readonly to: Position;
  /** `together`: with the neighbouring pedal as a last resort; `too-soon`: on some pass the foot has no time for it. */
  readonly manner: 'alone' | 'together' | 'too-soon';
}

/** How the foot comes to a moment: where its pedals stand, and how long ago it moved. */
export interface Arrival {
  readonly positions: FootPositions;
  readonly since: number;
}

/** The pedals whose moves are printed at a moment, those that the foot has no time for, and those taken together. */
export interface ChangesAtMoment {
  readonly printed: PedalMask;
  readonly tooSoon: PedalMask;
  readonly together: PedalMask;
}

export const NO_CHANGES: ChangesAtMoment = { printed: 0, tooSoon: 0, together: 0 };

/** What must be printed so that every arrival ends in `stand`. */
export const changesForArrivals = (
  task: FootTask,
  arrivals: readonly Arrival[],
  positions: FootPositions,
): ChangesAtMoment => {
  let all = NO_CHANGES;
  for (const arrival of arrivals) {
    if (arrival.positions === positions) continue;
    const one = changesForArrival(task, arrival, positions);
    all =
      all === NO_CHANGES
        ? one
        : {
            printed: all.printed | one.printed,
            tooSoon: all.tooSoon | one.tooSoon,
            together: all.together | one.together,
          };
  }
  return all;
};

/** The moves made on one arrival, those of them that it leaves no time for, and those taken together as a last resort. */
export const changesForArrival = (
  task: FootTask,
  arrival: Arrival,
  positions: FootPositions,
): ChangesAtMoment => {
  const printed = movedPedals(arrival.positions, positions);
  const pedals = pedalIndices(printed);
  if (printed === 0) return NO_CHANGES;
  const first = pedals[0]!;
  const unrested = hasRested(arrival.since, task.footRestSeconds) ? 0 : 1 << first;
  if (
    task.together !== null &&
    pedals.length === 2 &&
    pedals[1] === first + 1 &&
    wayOf(first, arrival.positions, positions) === wayOf(first + 1, arrival.positions, positions)
  ) {
    return { printed, tooSoon: unrested, together: 1 << (first + 1) };
  }
  return { printed, tooSoon: unrested | (printed & ~(1 << first)), together: 0 };
};

/** Below 0 where a pedal goes up, to a flatter position; above where it goes down. */
const wayOf = (pedal: number, from: FootPositions, to: FootPositions): number =>
  Math.sign(positionOf(to, pedal) - positionOf(from, pedal));

/** The printed moves themselves; each starts where the first arrival that needs it comes from. */
export const movesOf = (
  { printed, tooSoon, together }: ChangesAtMoment,
  moment: number,
  arrivals: readonly Arrival[],
  positions: FootPositions,
): FootMove[] =>
  pedalIndices(printed).map((pedal) => {
    const bit = 1 << pedal;
    return {
      pedal,
      moment,
      from: positionOf(positionsBefore(arrivals, positions, pedal), pedal),
      to: positionOf(positions, pedal),
      manner: tooSoon & bit ? 'too-soon' : together & bit ? 'together' : 'alone',
    };
  });

/** The stand of the first arrival that has the pedal elsewhere. */
const positionsBefore = (
  arrivals: readonly Pick<Arrival, 'positions'>[],
  positions: FootPositions,
  pedal: number,
): FootPositions =>
  arrivals.length === 1
    ? arrivals[0]!.positions
    : arrivals.find((arrival) => movedPedals(arrival.positions, positions) & (1 << pedal))!.positions;

export const costOfStart = ({ choices, priceAtStart }: FootTask, positions: FootPositions): number =>
  choices.reduce((sum, _, pedal) => sum + priceAtStart(pedal, positionOf(positions, pedal)), 0);

/** The price of the printed moves together. */
export const costOfMoves = (
  task: FootTask,
  { printed, tooSoon, together }: ChangesAtMoment,
  moment: number,
  arrivals: readonly Arrival[],
  positions: FootPositions,
): number => {
  let cost = 0;
  for (const pedal of pedalIndices(printed)) {
    const bit = 1 << pedal;
    const from = positionOf(positionsBefore(arrivals, positions, pedal), pedal);
    const price = task.perMove + task.priceAt(pedal, moment, from, positionOf(positions, pedal));
    cost += price + (tooSoon & bit ? task.tooSoon : together & bit ? task.together! : 0);
  }
  return cost;
};

import type { Position } from '../harp/setting.ts';
import type { PlayGraph } from './play-graph.ts';

/** What one foot has to choose from, and what each choice costs. */
export interface FootTask {
  /** Positions to consider, by pedal of the foot and by moment. */
  readonly choices: readonly (readonly (readonly Position[])[])[];
  readonly graph: PlayGraph;
  readonly restSeconds: number;
  /** Price of printing a move of a pedal to a position at a moment, over and above `perMove`. */
  readonly priceAt: (pedal: number, moment: number, from: Position, to: Position) => number;
  readonly perMove: number;
  /** Price of a move for which the foot has no time. */
  readonly tooSoon: number;
  /** Price of two neighbouring pedals taken together in one direction; null where that is not allowed. */
  readonly together: number | null;
}

/** One pedal's move as printed: it holds whenever the music comes by. */
export interface PrintedMove {
  readonly pedal: number;
  readonly moment: number;
  readonly from: Position;
  readonly to: Position;
  /** `together`: with the neighbouring pedal as a last resort; `too-soon`: on some pass the foot has no time for it. */
  readonly manner: 'alone' | 'together' | 'too-soon';
}

export type Stand = readonly Position[];

/** How the foot comes to a moment: where its pedals stand, and how long ago it moved. */
export interface Arrival {
  readonly stand: Stand;
  readonly since: number;
}

export interface Printing {
  readonly printed: number;
  readonly hurried: number;
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
}

/** What must be printed so that every arrival ends in `stand`. */
export const printMoves = (
  task: FootTask,
  moment: number,
  arrivals: readonly Arrival[],
  stand: Stand,
): Printing => {
  let printed = 0;
  let hurried = 0;
  let together = 0;
  for (const arrival of arrivals) {
    const executed = differing(arrival.stand, stand);
    const late = tooSoonOf(task, executed, arrival, stand);
    printed |= executed;
    hurried |= late.hurried;
    together |= late.together;
  }
  const moves = pedalsOf(printed).map((pedal): PrintedMove => {
    const from = arrivals.find((arrival) => arrival.stand[pedal] !== stand[pedal])!.stand[pedal]!;
    const bit = 1 << pedal;
    const manner = hurried & bit ? 'too-soon' : together & bit ? 'together' : 'alone';
    return { pedal, moment, from, to: stand[pedal]!, manner };
  });
  const cost = moves.reduce((sum, move) => sum + moveCost(task, move), 0);
  return { printed, hurried, moves, cost };
};

export const moveCost = (task: FootTask, { pedal, moment, from, to, manner }: PrintedMove): number =>
  task.perMove +
  task.priceAt(pedal, moment, from, to) +
  (manner === 'too-soon' ? task.tooSoon : manner === 'together' ? task.together! : 0);

export const differing = (before: Stand, after: Stand): number =>
  after.reduce(
    (bits: number, position, pedal) => (before[pedal] === position ? bits : bits | (1 << pedal)),
    0,
  );

export const pedalsOf = (bits: number): number[] => [0, 1, 2, 3].filter((pedal) => bits & (1 << pedal));

/** Of the moves made on one arrival, those that the foot has no time for, and those taken together as a last resort. */
export const tooSoonOf = (
  task: FootTask,
  executed: number,
  arrival: Arrival,
  stand: Stand,
): { readonly hurried: number; readonly together: number } => {
  const pedals = pedalsOf(executed);
  const [first, second] = pedals;
  if (first === undefined) return { hurried: 0, together: 0 };
  const unrested = isBefore(arrival.since, task.restSeconds) ? 1 << first : 0;
  const sameWay = (pedal: number): number => Math.sign(stand[pedal]! - arrival.stand[pedal]!);
  if (
    task.together !== null &&
    pedals.length === 2 &&
    second === first + 1 &&
    sameWay(first) === sameWay(second)
  ) {
    return { hurried: unrested, together: 1 << second };
  }
  return { hurried: unrested | (executed & ~(1 << first)), together: 0 };
};

export const isBefore = (seconds: number, rest: number): boolean => seconds < rest - 1e-6;

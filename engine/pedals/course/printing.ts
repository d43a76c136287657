import type { Position } from '../../harp/setting.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import { differing, type Pedals, pedalsOf, positionIn, type Stand } from './stand.ts';

/** What one foot has to choose from, and what each choice costs. */
export interface FootTask {
  /** Positions to consider, by pedal of the foot and by moment, each list in ascending order. */
  readonly choices: readonly (readonly (readonly Position[])[])[];
  readonly graph: PlayGraph;
  readonly restSeconds: number;
  /** Price of printing a move of a pedal to a position at a moment, over and above `perMove`. */
  readonly priceAt: (pedal: number, moment: number, from: Position, to: Position) => number;
  readonly perMove: number;
  /** Price of beginning the piece with a pedal in a position. */
  readonly priceAtStart: (pedal: number, position: Position) => number;
  /** Price, on top, of a move that only a jump back makes necessary where it lands. */
  readonly restoring: number;
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

/** How the foot comes to a moment: where its pedals stand, and how long ago it moved. */
export interface Arrival {
  readonly stand: Stand;
  readonly since: number;
}

/** The pedals whose moves are printed at a moment, those that the foot has no time for, and those taken together. */
export interface Printing {
  readonly printed: Pedals;
  readonly hurried: Pedals;
  readonly together: Pedals;
}

export const NOTHING_PRINTED: Printing = { printed: 0, hurried: 0, together: 0 };

/** What must be printed so that every arrival ends in `stand`. */
export const printFor = (task: FootTask, arrivals: readonly Arrival[], stand: Stand): Printing => {
  let all = NOTHING_PRINTED;
  for (const arrival of arrivals) {
    if (arrival.stand === stand) continue;
    const one = printOn(task, arrival, stand);
    all =
      all === NOTHING_PRINTED
        ? one
        : {
            printed: all.printed | one.printed,
            hurried: all.hurried | one.hurried,
            together: all.together | one.together,
          };
  }
  return all;
};

/** The moves made on one arrival, those of them that it leaves no time for, and those taken together as a last resort. */
export const printOn = (task: FootTask, arrival: Arrival, stand: Stand): Printing => {
  const printed = differing(arrival.stand, stand);
  const pedals = pedalsOf(printed);
  const [first, second] = pedals;
  if (first === undefined) return NOTHING_PRINTED;
  const unrested = hasRested(arrival.since, task.restSeconds) ? 0 : 1 << first;
  const sameWay = (pedal: number): number =>
    Math.sign(positionIn(stand, pedal) - positionIn(arrival.stand, pedal));
  if (
    task.together !== null &&
    pedals.length === 2 &&
    second === first + 1 &&
    sameWay(first) === sameWay(second)
  ) {
    return { printed, hurried: unrested, together: 1 << second };
  }
  return { printed, hurried: unrested | (printed & ~(1 << first)), together: 0 };
};

/** The printed moves themselves; each starts where the first arrival that needs it comes from. */
export const movesOf = (
  { printed, hurried, together }: Printing,
  moment: number,
  arrivals: readonly Arrival[],
  stand: Stand,
): PrintedMove[] =>
  pedalsOf(printed).map((pedal) => {
    const bit = 1 << pedal;
    return {
      pedal,
      moment,
      from: positionIn(comingTo(arrivals, stand, pedal), pedal),
      to: positionIn(stand, pedal),
      manner: hurried & bit ? 'too-soon' : together & bit ? 'together' : 'alone',
    };
  });

/** The stand of the first arrival that has the pedal elsewhere. */
const comingTo = (arrivals: readonly Arrival[], stand: Stand, pedal: number): Stand =>
  arrivals.find((arrival) => differing(arrival.stand, stand) & (1 << pedal))!.stand;

export const costOfStart = ({ choices, priceAtStart }: FootTask, stand: Stand): number =>
  choices.reduce((sum, _, pedal) => sum + priceAtStart(pedal, positionIn(stand, pedal)), 0);

/** The price of the printed moves together. */
export const costOfMoves = (
  task: FootTask,
  { printed, hurried, together }: Printing,
  moment: number,
  arrivals: readonly Arrival[],
  stand: Stand,
): number => {
  let cost = 0;
  for (const pedal of pedalsOf(printed)) {
    const bit = 1 << pedal;
    const from = positionIn(comingTo(arrivals, stand, pedal), pedal);
    const price = task.perMove + task.priceAt(pedal, moment, from, positionIn(stand, pedal));
    cost += price + (hurried & bit ? task.tooSoon : together & bit ? task.together! : 0);
  }
  return cost;
};

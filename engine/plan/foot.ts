import { FEET, type Foot, type Position } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import { choicesOf, type PlacedNeed } from './choices.ts';
import { findFootCourse } from './foot-course.ts';
import type { CostTerm } from './model.ts';
import type { Moments } from './moments.ts';
import type { Need } from './needs.ts';
import type { PlayGraph } from './play-graph.ts';
import { costTerms } from './pricing.ts';
import type { PrintedMove } from './printing.ts';
import { surroundingsOf } from './surroundings.ts';
import type { Weights } from './weights.ts';

/** A printed move with what surrounds it. */
export interface PlacedMove extends Omit<PrintedMove, 'pedal' | 'manner'> {
  /** `crossed`: by the other foot, as a last resort. */
  readonly manner: PrintedMove['manner'] | 'crossed';
  readonly letter: Letter;
  readonly foot: Foot;
  /** The last need of the old position in printed order, and the first need of the new one. */
  readonly after: Need | null;
  readonly before: Need | null;
  /** It moves the pedal only where the music jumps here: read on from the bar before, the pedal is there already. */
  readonly restores: boolean;
  readonly cost: readonly CostTerm[];
}

/** What one foot does through the piece. */
export interface FootPlan {
  readonly initial: ReadonlyMap<Letter, Position>;
  readonly moves: readonly PlacedMove[];
  /** Needs whose pedal stands elsewhere, since others at the same moment outnumber them. */
  readonly unserved: readonly Need[];
}

/** What both feet share. */
export interface Stage {
  readonly moments: Moments;
  readonly graph: PlayGraph;
  readonly secondsAt: (at: Rational) => number;
  readonly weights: Weights;
  /** Whether two neighbouring pedals may be taken together as a last resort. */
  readonly together: boolean;
  readonly idle: (letter: Letter) => Position;
  /** Positions that the user fixed, by moment. */
  readonly pinned: (letter: Letter) => ReadonlyMap<number, Position>;
  /** Whether the user forbade moves at a moment. */
  readonly isForbidden: (moment: number) => boolean;
}

/**
 * Plans one foot: the best course for its pedals, and each move's reasons.
 *
 * @param needs of every pedal of the foot, each in order of moment
 */
export const planFoot = (
  foot: Foot,
  needs: ReadonlyMap<Letter, readonly PlacedNeed[]>,
  stage: Stage,
): FootPlan => {
  const { moments, graph, weights } = stage;
  const letters = FEET[foot];
  const around = letters.map((letter) => surroundingsOf(needs.get(letter)!, graph, stage.secondsAt));
  const priced = (pedal: number, moment: number, from: Position, to: Position): CostTerm[] => [
    ...costTerms(moment, moments.all[moment]!, from, to, around[pedal]!, weights),
    ...(stage.isForbidden(moment) ? [{ name: 'forbidden', amount: weights.forbidden }] : []),
  ];
  const course = findFootCourse({
    choices: letters.map(
      (letter) => choicesOf(needs.get(letter)!, graph, stage.idle(letter), stage.pinned(letter)).at,
    ),
    graph,
    restSeconds: weights.footRestSeconds,
    priceAt: (...move) => priced(...move).reduce((sum, term) => sum + term.amount, 0),
    perMove: weights.move,
    tooSoon: weights.footTooBusy,
    together: stage.together ? weights.pedalsTogether : null,
  });
  const stands = letters.map((_, pedal) => followPedal(course.initial[pedal]!, pedal, course.moves, graph));
  return {
    initial: new Map(letters.map((letter, pedal) => [letter, course.initial[pedal]!])),
    moves: course.moves.map(({ pedal, ...move }) => ({
      ...move,
      letter: letters[pedal]!,
      foot,
      ...windowOf(needs.get(letters[pedal]!)!, move),
      restores: arrivesThere(stands[pedal]!, move, graph),
      cost: priced(pedal, move.moment, move.from, move.to),
    })),
    unserved: letters.flatMap((letter, pedal) => [
      ...new Set(
        needs
          .get(letter)!
          .filter(({ need, moment }) => stands[pedal]![moment] !== need.position)
          .map(({ need }) => need),
      ),
    ]),
  };
};

/** Where a pedal stands at each moment once the markings there are obeyed. */
const followPedal = (
  initial: Position,
  pedal: number,
  moves: readonly PrintedMove[],
  graph: PlayGraph,
): Position[] => {
  const printed = new Map(moves.filter((move) => move.pedal === pedal).map((move) => [move.moment, move.to]));
  const stands: Position[] = [];
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const from = graph.into[moment]!.find((edge) => edge.from < moment)?.from ?? moment - 1;
    stands.push(printed.get(moment) ?? stands[from] ?? initial);
  }
  return stands;
};

const arrivesThere = (
  stands: readonly Position[],
  move: Pick<PrintedMove, 'moment' | 'to'>,
  graph: PlayGraph,
): boolean => {
  const step = graph.into[move.moment]!.find((edge) => edge.from === move.moment - 1);
  return step === undefined ? move.moment === graph.start : stands[step.from] === move.to;
};

const windowOf = (
  needs: readonly PlacedNeed[],
  move: Pick<PrintedMove, 'moment' | 'from'>,
): { readonly after: Need | null; readonly before: Need | null } => {
  const next = firstFrom(needs, move.moment);
  let last = next - 1;
  while (last >= 0 && needs[last]!.need.position !== move.from) last -= 1;
  return { after: needs[last]?.need ?? null, before: needs[next]?.need ?? null };
};

const firstFrom = (needs: readonly PlacedNeed[], moment: number): number => {
  let low = 0;
  let high = needs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (needs[middle]!.moment < moment) low = middle + 1;
    else high = middle;
  }
  return low;
};

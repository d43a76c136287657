import { bisector } from 'd3-array';
import { FEET, type Foot, type Position } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import { rationalKey } from '../../music/rational.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import type { Need } from '../../sounding/needs.ts';
import type { Moments } from '../../time/moments.ts';
import type { SolvedMove } from '../course/foot.ts';
import { bendsString } from '../course/move-cost.ts';
import type { PedalSolution } from '../course/solve.ts';
import type { Weights } from '../weights.ts';
import type { Span } from './passage.ts';

/** What the feet do once some notes are changed. */
export interface ChangedPlan {
  /** As against the plan that is told; one a note. */
  readonly changes: readonly NoteChange[];
  readonly initial: PedalSolution['initial'];
  /** In order of moment. */
  readonly moves: readonly SolvedMove[];
  readonly unmet: readonly Need[];
}

/** The plan that is told. */
export const asTold = ({ initial, moves, unmet }: PedalSolution): ChangedPlan => ({
  changes: [],
  initial,
  moves,
  unmet,
});

/** What some feet do in a part of the music; its moments are those of the whole. */
export interface LocalPlan extends Omit<ChangedPlan, 'changes'> {
  readonly span: Span;
  readonly feet: readonly Foot[];
}

/** A plan with another one in place of its own in a part of the music. */
export const putInto = (
  plan: ChangedPlan,
  { span, feet, initial, moves, unmet }: LocalPlan,
  changes: readonly NoteChange[],
  moments: Moments,
): ChangedPlan => {
  const letters: readonly Letter[] = feet.flatMap((foot) => FEET[foot]);
  const isInside = (moment: number): boolean => moment >= span.from && moment < span.until;
  const stays = ({ letter, moment }: SolvedMove): boolean =>
    !letters.includes(letter) || (moment === span.from && !span.freeStart);
  const [first, end] = boundsOf(plan.moves, span);
  return {
    changes,
    initial: span.freeStart ? new Map([...plan.initial, ...initial]) : plan.initial,
    moves: [
      ...plan.moves.slice(0, first),
      ...[...plan.moves.slice(first, end).filter(stays), ...moves].sort(
        (a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter),
      ),
      ...plan.moves.slice(end),
    ],
    unmet: [
      ...plan.unmet.filter(
        ({ letter, startNote }) => !letters.includes(letter) || !isInside(moments.ofNote(startNote)),
      ),
      ...unmet,
    ],
  };
};

const byMoment = bisector(({ moment }: SolvedMove) => moment);

/** Which of the moves, by their places in the list, are made in a span: from the first to the one before the second. */
const boundsOf = (
  moves: readonly SolvedMove[],
  { from, until }: Pick<Span, 'from' | 'until'>,
): readonly [number, number] => [byMoment.left(moves, from), byMoment.left(moves, until)];

/** What the feet do in a span. */
export const movesWithin = (
  { moves }: Pick<ChangedPlan, 'moves'>,
  span: Pick<Span, 'from' | 'until'>,
): readonly SolvedMove[] => moves.slice(...boundsOf(moves, span));

/** What of a plan lies in a span. */
export const cutPlan = (
  plan: Pick<ChangedPlan, 'moves' | 'unmet'>,
  span: Pick<Span, 'from' | 'until'>,
  moments: Moments,
): Pick<ChangedPlan, 'moves' | 'unmet'> => ({
  moves: movesWithin(plan, span),
  unmet: plan.unmet.filter(({ startNote }) => {
    const moment = moments.ofNote(startNote);
    return moment >= span.from && moment < span.until;
  }),
});

/** Where the pedals stand by a plan at those ends of a span that are not free, by moments counted from its first. */
export const positionsAtEnds = (
  plan: Pick<ChangedPlan, 'initial' | 'moves'>,
  { from, until, freeStart, freeEnd }: Span,
): ((letter: Letter) => ReadonlyMap<number, Position>) => {
  const ends = [...(freeStart ? [] : [from]), ...(freeEnd ? [] : [until - 1])];
  return (letter) => new Map(ends.map((moment) => [moment - from, standsAt(plan, letter, moment)]));
};

/** Where a pedal stands by a plan once it was moved at a moment. */
export const standsAt = (
  { initial, moves }: Pick<ChangedPlan, 'initial' | 'moves'>,
  letter: Letter,
  moment: number,
): Position => {
  for (let i = byMoment.right(moves, moment) - 1; i >= 0; i -= 1) {
    if (moves[i]!.letter === letter) return moves[i]!.to;
  }
  return initial.get(letter)!;
};

/** Places that cannot be played. */
export const stopsOf = ({ unmet, moves }: Pick<ChangedPlan, 'unmet' | 'moves'>): number =>
  unmet.length + moves.filter(({ manner }) => manner === 'too-soon').length;

/** Moves that are made as a last resort alone. */
const lastResortsOf = ({ moves }: Pick<ChangedPlan, 'moves'>): number =>
  moves.filter(({ manner }) => manner === 'together' || manner === 'crossed').length;

/** Whether nothing is worse than by another plan: neither more nor elsewhere is a pedal wanted in two positions. */
export const isNoWorse = (
  plan: Pick<ChangedPlan, 'unmet' | 'moves'>,
  than: Pick<ChangedPlan, 'unmet' | 'moves'>,
): boolean =>
  stopsOf(plan) <= stopsOf(than) &&
  lastResortsOf(plan) <= lastResortsOf(than) &&
  areAmong(clashesOf(plan), clashesOf(than));

/** Where pedals are wanted in two positions. */
const clashesOf = ({ unmet }: Pick<ChangedPlan, 'unmet'>): ReadonlySet<string> =>
  new Set(unmet.map(({ letter, onset }) => `${letter} ${rationalKey(onset)}`));

const areAmong = (some: ReadonlySet<string>, all: ReadonlySet<string>): boolean =>
  [...some].every((each) => all.has(each));

/** Whether something is mended as against another plan, and nothing worse. */
export const isBetter = (plan: ChangedPlan, than: ChangedPlan): boolean =>
  isNoWorse(plan, than) && stopsOf(plan) + lastResortsOf(plan) < stopsOf(than) + lastResortsOf(than);

/** Whether fewer strings are heard to bend than by another plan, for no more moves and nothing worse. */
export const isCalmer = (plan: ChangedPlan, than: ChangedPlan, weights: Weights): boolean => {
  const bends = ({ moves }: ChangedPlan): number =>
    moves.filter(({ cost }) => bendsString(cost, weights)).length;
  return isNoWorse(plan, than) && plan.moves.length <= than.moves.length && bends(plan) < bends(than);
};

/** What goes wrong for the feet: at a note that finds its pedal elsewhere, whose move lacks time, or bends a string. */
export interface FootTrouble {
  readonly kind: 'unmet' | 'no-time' | 'bends-string';
  readonly note: string;
}

export const isInTrouble = (
  { unmet, moves }: Pick<ChangedPlan, 'unmet' | 'moves'>,
  { kind, note }: FootTrouble,
  weights: Weights,
): boolean => {
  if (kind === 'unmet') return unmet.some((need) => need.note.id === note);
  const isBad = ({ manner, cost }: SolvedMove): boolean =>
    kind === 'no-time' ? manner !== 'alone' : bendsString(cost, weights);
  return moves.some((move) => move.before?.note.id === note && isBad(move));
};

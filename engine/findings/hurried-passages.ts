import type { Side } from '../harp/side.ts';
import { perObject } from '../memoize.ts';
import type { Rational } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import {
  findHurriedStretches,
  type MoveAt,
  type Stretch,
  type UnhurriedMoves,
  unhurriedPercent,
} from '../time/hurried-stretches.ts';
import type { Moment } from '../time/moments.ts';
import { barsOfRest, toldAtIn } from '../time/told-at.ts';
import { nameBarIn } from '../words/bar-names.ts';
import { type HurriedFacts, MOVER_TROUBLES } from './catalogue/entry.ts';
import { type FactsOf, FINDINGS, type FindingCode } from './catalogue.ts';
import { describeFinding } from './describe-finding.ts';
import { type Help, help } from './help/help.ts';
import type { Finding, FindingPlace } from './model.ts';

/** A move of a foot, or of a hand at a lever, and where it is made. */
export interface MoveInPlace extends MoveAt {
  readonly at: Rational;
  readonly bar: number;
  /** What is told of it in a hurry: most moves are in none. */
  readonly tell: () => FindingPlace;
}

/** A move at a moment, as it is told where there is hurry. */
export const moveInPlace = (
  score: Score,
  { bar, at, seconds }: Pick<Moment, 'bar' | 'at' | 'seconds'>,
  side: Side,
  told: () => Pick<FindingPlace, 'hand' | 'sentence' | 'notes'>,
): MoveInPlace => ({
  side,
  seconds,
  at,
  bar,
  tell: () => {
    const { number } = score.bars[bar]!;
    const beat = beatAt(score.bars[bar]!, toldAtIn(score)({ at, bar }));
    return { bar, barNumber: number, barName: nameBarIn(score)(bar), beat, staff: null, ...told() };
  },
});

/** Of whom hurry is told, from how many moves on, and with what advice beside a slower tempo. */
export interface HurryOf<Code extends HurryCode> {
  readonly code: Code;
  readonly most: UnhurriedMoves;
  readonly help: Help;
}

type HurryCode = 'feet-hurried-passage' | 'hands-hurried-passage';

/** What is told of moves without time, and of the last resorts that are taken instead. */
const isWithoutTime = ({ code }: Finding<FindingCode>): boolean => {
  const trouble = FINDINGS[code].ofFastChange;
  return MOVER_TROUBLES.some((each) => each === trouble);
};

/**
 * Passages with more moves than feet or hands comfortably make, each with all of its moves. Hurry is not told of bars of
 * which it is told already that there is no time: only of what is too much before them or after. In a rest of several bars
 * there is time for everything, and a player is told of it at the start of the rest.
 *
 * @param moves in order of time
 * @param told what is told otherwise, joined
 */
export const hurriedPassages = <Code extends HurryCode>(
  score: Score,
  moves: readonly MoveInPlace[],
  told: readonly Finding<FindingCode>[],
  hurryOf: HurryOf<Code>,
): Finding<Code>[] => {
  const withoutTime = told.filter(isWithoutTime);
  const isTold = (move: MoveInPlace): boolean =>
    withoutTime.some(({ bar, places }) => bar <= move.bar && move.bar <= places.at(-1)!.bar);
  const rests = barsOfRest(score);
  const isAtLeisure = ({ bar }: MoveInPlace): boolean =>
    rests.has(bar) && (rests.has(bar - 1) || rests.has(bar + 1));
  const counted = moves.filter((move) => !isAtLeisure(move));
  const runs = splitAt(counted, isTold).flatMap((run) => splitAtEndings(run, score));
  return runs.flatMap((run) =>
    joinStretches(run, findHurriedStretches(run, hurryOf.most)).map(([first, last]) =>
      describeHurry(score, run.slice(first, last + 1), hurryOf),
    ),
  );
};

/** Stretches with no bar between them are one passage. */
const joinStretches = (moves: readonly MoveInPlace[], stretches: readonly Stretch[]): readonly Stretch[] => {
  const joined: Stretch[] = [];
  for (const [first, last] of stretches) {
    const before = joined.at(-1);
    const isNext = before !== undefined && moves[first]!.bar - moves[before[1]]!.bar <= 1;
    if (isNext) joined[joined.length - 1] = [before[0], last];
    else joined.push([first, last]);
  }
  return joined;
};

const describeHurry = <Code extends HurryCode>(
  score: Score,
  moves: readonly MoveInPlace[],
  { code, most, help: advice }: HurryOf<Code>,
): Finding<Code> => {
  const first = moves[0]!;
  const left = moves.filter(({ side }) => side === 'left').length;
  const percent = unhurriedPercent(moves, most);
  const facts: HurriedFacts = {
    moves: moves.length,
    seconds: moves.at(-1)!.seconds - first.seconds,
    left,
    right: moves.length - left,
  };
  const finding = describeFinding(score, code, facts as FactsOf<Code>, {
    place: { bar: first.bar, at: first.at },
    help: percent === null ? [advice] : [advice, help('unhurried-at', { percent })],
  });
  const places = moves.map(({ tell }) => tell());
  const notes = [...new Set(places.flatMap((place) => place.notes))];
  return { ...finding, notes, places };
};

/** The bars that are played after the one before them in print. */
const barsReadOnTo = perObject(
  (playOrder: readonly number[]): ReadonlySet<number> =>
    new Set(playOrder.filter((bar, i) => i > 0 && playOrder[i - 1] === bar - 1)),
);

/** Moves that follow each other in print and are never played one after the other, as in two endings, are apart. */
const splitAtEndings = (
  moves: readonly MoveInPlace[],
  { playOrder }: Pick<Score, 'playOrder'>,
): readonly MoveInPlace[][] => {
  const led = barsReadOnTo(playOrder);
  const runs: MoveInPlace[][] = [];
  let before: MoveInPlace | undefined;
  for (const move of moves) {
    const from = before?.bar ?? move.bar;
    const follows = Array.from({ length: move.bar - from }, (_, i) => from + 1 + i).every((bar) =>
      led.has(bar),
    );
    if (before === undefined || !follows) runs.push([]);
    runs.at(-1)!.push(move);
    before = move;
  }
  return runs;
};

/** What lies between the items that part them, in order. */
const splitAt = <Item>(items: readonly Item[], isBreak: (item: Item) => boolean): readonly Item[][] => {
  const runs: Item[][] = [[]];
  for (const item of items) {
    if (isBreak(item)) runs.push([]);
    else runs.at(-1)!.push(item);
  }
  return runs;
};

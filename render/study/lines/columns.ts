import {
  type CountedBar,
  compare,
  type Move,
  type OneTime,
  type Rational,
  rational,
  rationalKey,
  subtract,
  ZERO,
} from '../../../engine/index.ts';

/** Something done at a moment: a move of a pedal or a change of a lever. */
export type Placed = Pick<Move, 'at' | 'bar' | 'beat' | 'graceNote' | 'restores'> & {
  /** Of levers: the one time of playing at which it is made, as the page tells it; null where it is each time. */
  readonly onlyAt?: OneTime | null;
};

/** A moment of a chart: a beat, moves, or both. */
export interface Column<M extends Placed = Move> {
  readonly at: Rational;
  /** What is counted here, from 1; null between counts. */
  readonly count: number | null;
  /** The part of the count that has passed. */
  readonly passed: Rational;
  /** At most one in each lane; all for every time of playing, or all only for when the music comes back. */
  readonly moves: readonly M[];
  /** From here to the next moment, in ems. */
  readonly widthEm: number;
}

/** A bar of a chart, a part of one that is wider than a line, or several bars that are told as one. */
export interface Stretch<M extends Placed = Move> {
  /** Indices of the first and the last bar. */
  readonly from: number;
  readonly until: number;
  /** Whether a bar begins here, and whether one ends. */
  readonly opens: boolean;
  readonly closes: boolean;
  /** Of its width, the room for the sign of a repeat that begins here, and of one that ends, in ems. */
  readonly leadEm: number;
  readonly tailEm: number;
  readonly columns: readonly Column<M>[];
  readonly widthEm: number;
}

/** How far apart moments stand, in ems. */
export interface Spacing<M extends Placed> {
  readonly beatEm: number;
  /** From moves made at once to the next moment. */
  readonly moveEm: (moves: readonly M[]) => number;
}

/**
 * The moments of a bar: its counts, and the moves made in it in their order.
 *
 * @param isBefore whether a move is made in the pause before the bar: such moves stand before its first count
 * @param laneOf the lane of a move: two in one lane stand one after the other, even where they are made at one moment
 */
export const columnsOf = <M extends Placed>(
  { counts: counted, countAt }: CountedBar,
  moves: readonly M[],
  spacing: Spacing<M>,
  laneOf: (move: M) => number | string,
  isBefore: (move: M) => boolean,
): readonly Column<M>[] => {
  const counts = new Map(counted.map(({ at, count }) => [rationalKey(at), count]));
  const before = groupMoves(moves.filter(isBefore), laneOf).map(
    (group): Column<M> => ({ ...group, count: null, passed: ZERO, widthEm: spacing.moveEm(group.moves) }),
  );
  const groups = groupMoves(
    moves.filter((move) => !isBefore(move)),
    laneOf,
  );
  const moved = new Set(groups.map(({ at }) => rationalKey(at)));
  const empty = counted
    .filter(({ at }) => !moved.has(rationalKey(at)))
    .map(({ at }) => ({ at, moves: [] as readonly M[] }));
  const told = new Set<string>();
  const played = [...empty, ...groups]
    .sort((a, b) => compare(a.at, b.at))
    .map(({ at, moves: made }) => {
      const key = rationalKey(at);
      const count = told.has(key) ? null : (counts.get(key) ?? null);
      told.add(key);
      const passed = passedOf(countAt(at));
      const widthEm = made.length > 0 ? spacing.moveEm(made) : spacing.beatEm;
      return { at, moves: made, count, passed, widthEm };
    });
  return [...before, ...played];
};

/** Which part of a count has passed. */
export const passedOf = (count: Rational): Rational =>
  subtract(count, rational(Math.floor(count.num / count.den)));

/**
 * Moves of one moment; a second one in a lane, as of a pedal that moves twice round a grace note, begins another, and so
 * does one that is made at another time of playing.
 */
const groupMoves = <M extends Placed>(
  moves: readonly M[],
  laneOf: (move: M) => number | string,
): readonly { readonly at: Rational; readonly moves: readonly M[] }[] => {
  const groups: { at: Rational; moves: M[] }[] = [];
  for (const move of moves) {
    const open = groups.at(-1);
    const fits =
      open !== undefined &&
      compare(open.at, move.at) === 0 &&
      open.moves.every(
        (each) =>
          laneOf(each) !== laneOf(move) && each.restores === move.restores && each.onlyAt === move.onlyAt,
      );
    if (fits) open.moves.push(move);
    else groups.push({ at: move.at, moves: [move] });
  }
  return groups;
};

/** A bar at least so wide, its moments spread over it; one in which no count falls is as wide. */
export const stretchOf = <M extends Placed>(
  bar: number,
  columns: readonly Column<M>[],
  leastEm: number,
): Stretch<M> => {
  const width = widthOf(columns);
  const whole = { from: bar, until: bar, opens: true, closes: true, leadEm: 0, tailEm: 0 };
  if (width === 0) return { ...whole, columns, widthEm: leastEm };
  const factor = Math.max(1, leastEm / width);
  const spread = columns.map((column) => ({ ...column, widthEm: column.widthEm * factor }));
  return { ...whole, columns: spread, widthEm: width * factor };
};

const widthOf = (columns: readonly Pick<Column, 'widthEm'>[]): number =>
  columns.reduce((sum, { widthEm }) => sum + widthEm, 0);

/**
 * Stretches in as few lines no wider than `widthEm` as they need, about as wide as each other: broken between bars, and
 * within a bar only where it is wider than a line.
 */
export const breakLines = <M extends Placed>(
  stretches: readonly Stretch<M>[],
  widthEm: number,
): readonly (readonly Stretch<M>[])[] => {
  const pieces = stretches.flatMap((each) => splitWide(each, widthEm));
  const most = fillLines(pieces, widthEm).length;
  let [tooNarrow, wide] = [0, widthEm];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (tooNarrow + wide) / 2;
    if (fillLines(pieces, middle).length > most) tooNarrow = middle;
    else wide = middle;
  }
  return fillLines(pieces, wide);
};

/** After so many, lines differ by less than a hair. */
const HALVINGS = 16;

/** Each line takes what it has room for. */
const fillLines = <M extends Placed>(
  stretches: readonly Stretch<M>[],
  widthEm: number,
): readonly (readonly Stretch<M>[])[] => {
  const lines: Stretch<M>[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const stretch of stretches) {
    if (used + stretch.widthEm > widthEm) {
      lines.push([]);
      used = 0;
    }
    lines.at(-1)!.push(stretch);
    used += stretch.widthEm;
  }
  return lines;
};

const splitWide = <M extends Placed>(stretch: Stretch<M>, widthEm: number): readonly Stretch<M>[] => {
  if (stretch.widthEm <= widthEm) return [stretch];
  const parts: Column<M>[][] = [[]];
  for (const column of stretch.columns) {
    const open = parts.at(-1)!;
    const signsEm = (parts.length === 1 ? stretch.leadEm : 0) + stretch.tailEm;
    if (open.length > 0 && widthOf(open) + column.widthEm + signsEm > widthEm) parts.push([column]);
    else open.push(column);
  }
  return parts.map((columns, i) => {
    const [opens, closes] = [i === 0, i === parts.length - 1];
    const [leadEm, tailEm] = [opens ? stretch.leadEm : 0, closes ? stretch.tailEm : 0];
    const widthEm = leadEm + widthOf(columns) + tailEm;
    return { ...stretch, opens, closes, leadEm, tailEm, columns, widthEm };
  });
};

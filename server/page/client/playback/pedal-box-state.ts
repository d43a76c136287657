import {
  beatsAt,
  type Foot,
  hasRested,
  type Letter,
  lastMoveAt,
  type PartPerformance,
  type Plan,
  type PlayedMove,
  type Setting,
  settingAt,
} from '../../../../engine/index.ts';

/** A move that is announced: `beats` are left until it, rounded up. */
export interface ComingMove {
  readonly played: PlayedMove;
  readonly beats: number;
}

/** What the picture of the pedals shows at one time. */
export interface PedalBoxState {
  readonly setting: Setting;
  /** The next moves, all at one time: one of a foot or of each foot; empty where none comes in the next bars. */
  readonly coming: readonly ComingMove[];
  /** Pedals that moved just now. */
  readonly moved: readonly Letter[];
  /** Pedals whose moves are too close for the foot. */
  readonly tooClose: readonly Letter[];
  readonly busyFeet: readonly Foot[];
}

/** A move is announced so many beats ahead, or where they are short so many seconds of the clock. */
export const ANNOUNCED_BEATS = 8;
const ANNOUNCED_SECONDS = 4;

/** Seconds of the clock for which a move that was made is shown as new, and one that is too close stays lit. */
const SHOWN_SECONDS = 1.2;

/** Seconds of the clock ahead of a move that is too close at which it lights up. */
const WARNED_SECONDS = 3;

/** How it is played and judged. */
export interface PedalWatch {
  readonly plan: Pick<Plan, 'moves' | 'footRestSeconds'>;
  /** 1 is the written tempo. */
  readonly tempo: number;
}

/** At this tempo the foot has no time for it; or the plan says that it has none at any. */
const isTooClose = ({ sinceFootMoved, move }: PlayedMove, { plan, tempo }: PedalWatch): boolean =>
  !hasRested(sinceFootMoved / tempo, plan.footRestSeconds) ||
  plan.moves[move]!.cost.some(({ name }) => name === 'footTooBusy');

export const pedalBoxAt = (
  performance: PartPerformance,
  seconds: number,
  watch: PedalWatch,
): PedalBoxState => {
  const { moves } = performance;
  const done = lastMoveAt(performance, seconds);
  const next = moves[done + 1];
  const together = next === undefined ? [] : sameTime(moves, done + 1, next.at);
  const beats = next === undefined ? 0 : beatsAt(performance, next.at) - beatsAt(performance, seconds);
  const coming =
    beats <= ANNOUNCED_BEATS || (next !== undefined && next.at - seconds <= ANNOUNCED_SECONDS * watch.tempo)
      ? together.map((played) => ({ played, beats: Math.max(1, Math.ceil(beats - 1e-6)) }))
      : [];
  const justMade = shownMoves(moves, done, seconds - SHOWN_SECONDS * watch.tempo, seconds);
  const lit = shownMoves(
    moves,
    done,
    seconds - SHOWN_SECONDS * watch.tempo,
    seconds + WARNED_SECONDS * watch.tempo,
  );
  const close = lit.filter((played) => isTooClose(played, watch));
  return {
    setting: settingAt(performance, seconds),
    coming,
    moved: justMade.map(({ letter }) => letter),
    tooClose: [...new Set(close.flatMap((played) => [played.letter, ...before(moves, played)]))],
    busyFeet: [...new Set(close.map(({ foot }) => foot))],
  };
};

const sameTime = (moves: readonly PlayedMove[], first: number, at: number): readonly PlayedMove[] => {
  const end = moves.findIndex((move, i) => i >= first && move.at > at + 1e-6);
  return moves.slice(first, end === -1 ? moves.length : end);
};

/** Moves from one time to another, around the last that was made. */
const shownMoves = (
  moves: readonly PlayedMove[],
  done: number,
  from: number,
  until: number,
): readonly PlayedMove[] => {
  let first = Math.max(0, done);
  while (first > 0 && moves[first - 1]!.at >= from) first -= 1;
  const shown: PlayedMove[] = [];
  for (let i = first; i < moves.length && moves[i]!.at <= until + 1e-6; i += 1) {
    if (moves[i]!.at >= from) shown.push(moves[i]!);
  }
  return shown;
};

/** The pedal that the same foot moved right before. */
const before = (moves: readonly PlayedMove[], played: PlayedMove): readonly Letter[] => {
  const at = moves.indexOf(played);
  for (let i = at - 1; i >= 0; i -= 1) if (moves[i]!.foot === played.foot) return [moves[i]!.letter];
  return [];
};

/** Equal for states that look alike: the picture is drawn anew only when this changes. */
export const keyOfState = ({ setting, coming, moved, tooClose, busyFeet }: PedalBoxState): string =>
  JSON.stringify([
    setting,
    coming.map(({ played, beats }) => [played.letter, played.after[played.letter], beats]),
    moved,
    tooClose,
    busyFeet,
  ]);

import {
  beatsAt,
  type LeverPerformance,
  lastPlayedChange,
  leversUpAt,
  type PlayedChange,
  type Side,
} from '../../../../../engine/index.ts';

/** A change that is announced: `beats` are left until it, rounded up. */
export interface ComingChange {
  readonly played: PlayedChange;
  readonly beats: number;
}

/** What the picture of the strings shows at one time. */
export interface LeverBoardState {
  /** Names of the strings whose levers are up. */
  readonly up: ReadonlySet<string>;
  /** The next changes, all at one time; empty where none comes in the next bars. */
  readonly coming: readonly ComingChange[];
  /** Strings whose levers were set just now. */
  readonly moved: readonly string[];
  /** Hands that have no time for a change. */
  readonly busyHands: readonly Side[];
}

/** How it is played and judged. */
export interface LeverWatch {
  /** 1 is the written tempo. */
  readonly tempo: number;
  /** Seconds that a hand needs for a change. */
  readonly leverSeconds: number;
}

/** A change is announced so many beats ahead, or where they are short so many seconds of the clock. */
export const ANNOUNCED_BEATS = 8;
const ANNOUNCED_SECONDS = 4;

/** Seconds of the clock for which a change that was made is shown as new, and one that is too close is told ahead. */
const SHOWN_SECONDS = 1.2;
const WARNED_SECONDS = 3;

export const leverBoardAt = (
  performance: LeverPerformance,
  seconds: number,
  { tempo, leverSeconds }: LeverWatch,
): LeverBoardState => {
  const { changes } = performance;
  const done = lastPlayedChange(performance, seconds);
  const next = changes[done + 1];
  const beats = next === undefined ? 0 : beatsAt(performance, next.at) - beatsAt(performance, seconds);
  const isSoon =
    next !== undefined && (beats <= ANNOUNCED_BEATS || next.at - seconds <= ANNOUNCED_SECONDS * tempo);
  const within = (from: number, until: number): readonly PlayedChange[] =>
    changes.slice(Math.max(0, done - NEAR), done + NEAR).filter(({ at }) => at >= from && at <= until);
  const madeFrom = seconds - SHOWN_SECONDS * tempo;
  return {
    up: leversUpAt(performance, seconds),
    coming: isSoon
      ? changes
          .slice(done + 1, done + 1 + NEAR)
          .filter(({ at }) => at <= next.at + 1e-6)
          .map((played) => ({ played, beats: Math.max(1, Math.ceil(beats - 1e-6)) }))
      : [],
    moved: within(madeFrom, seconds + 1e-6).map(({ string }) => string),
    busyHands: [
      ...new Set(
        within(madeFrom, seconds + WARNED_SECONDS * tempo)
          .filter(({ sinceHandSet }) => sinceHandSet / tempo < leverSeconds - 1e-6)
          .map(({ hand }) => hand),
      ),
    ],
  };
};

/** No more changes than this come within the seconds that are looked at. */
const NEAR = 24;

/** Equal for states that look alike: the picture is drawn anew only when this changes. */
export const keyOfBoard = ({ up, coming, moved, busyHands }: LeverBoardState): string =>
  JSON.stringify([
    [...up].sort(),
    coming.map(({ played, beats }) => [played.string, played.to, beats]),
    moved,
    busyHands,
  ]);

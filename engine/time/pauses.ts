import { perObject } from '../memoize.ts';
import { add, compare, equals, type Rational } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';

/**
 * A moment of a pause between two movements. A player takes the time that is needed there: each pedal and each lever has
 * a moment of its own, and as long as it likes (common practice, no source).
 */
export interface PauseMoment {
  /** Counted from 0. */
  readonly place: number;
  /** The seconds from here to the end of the movement that follows: what feet and hands are set for. */
  readonly reach: number;
}

/** As many as a harp has levers, or more. */
export const MOMENTS_IN_PAUSE = 40;

/** From each moment of a pause to the next, and to the music on either side. */
export const PAUSE_STEP_SECONDS = 10;

type Movements = Pick<Score, 'bars' | 'notes' | 'pauses'>;

/**
 * The bars (indices) before which hands and feet have all the time: those of a movement before which the music stops,
 * unless a note is held into it.
 */
export const pausesBefore = perObject((score: Movements): ReadonlySet<number> => {
  if (score.pauses.length === 0) return new Set();
  const heldInto = new Set(barsHeldInto(score));
  return new Set(score.pauses.filter((bar) => !heldInto.has(bar)));
});

/** The bars (indices) into which a note is held from the bar before. */
const barsHeldInto = ({ bars, notes }: Movements): readonly number[] =>
  notes.flatMap(({ role, tiedFrom, bar, onset, duration }) => {
    if (role === 'cue') return [];
    const isTiedInto = tiedFrom !== null && equals(onset, bars[bar]!.onset);
    const next = bars[bar + 1];
    const isHeldOn = next !== undefined && compare(add(onset, duration), next.onset) > 0;
    return [...(isTiedInto ? [bar] : []), ...(isHeldOn ? [bar + 1] : [])];
  });

/** Whether a part pauses when it is played from one bar on to another: a repeat of a movement goes on at once. */
export const pausesBetween = (score: Movements, from: number, to: number): boolean =>
  from < to && pausesBefore(score).has(to);

/** Whether a move is made in the pause before its bar, and not while the part is played. */
export const isInPause = (
  score: Movements,
  { at, bar, graceNote }: { readonly at: Rational; readonly bar: number; readonly graceNote: string | null },
): boolean => graceNote === null && pausesBefore(score).has(bar) && equals(at, score.bars[bar]!.onset);

import {
  buildClock,
  compare,
  type Rational,
  rationalKey,
  type Score,
  subtract,
  toNumber,
} from '../../engine/index.ts';
import { findSilences, pauseTimes } from '../markings/silences.ts';

/** A rest of whole bars after which the harp comes in. */
export interface RestBeforeEntry {
  readonly from: Rational;
  readonly entry: Rational;
  /** Index of the bar in which the harp comes in. */
  readonly bar: number;
  /** Whole bars of rest. */
  readonly bars: number;
  readonly seconds: number;
}

/** Rests of at least one whole bar, each up to the note with which it ends; the last, that has no end, is none. */
export const restsBeforeEntries = (score: Score): readonly RestBeforeEntry[] => {
  const secondsAt = buildClock(score.tempo);
  const pauses = new Set(pauseTimes(score).map(rationalKey));
  const entries = new Map(
    score.notes.filter(({ role }) => role !== 'cue').map((note) => [rationalKey(note.onset), note.bar]),
  );
  return findSilences(score).flatMap(({ from, until, rests }) => {
    const bars = rests.reduce((sum, { first, last }) => sum + last - first + 1, 0);
    const bar = until === null ? undefined : entries.get(rationalKey(until));
    if (until === null || bar === undefined || bars === 0) return [];
    // The movement after a pause begins: nobody counts the rest before it.
    if (pauses.has(rationalKey(until))) return [];
    return [{ from, entry: until, bar, bars, seconds: secondsAt(until) - secondsAt(from) }];
  });
};

/** After how much rest cues are wanted; null for never. */
export interface CueWish {
  readonly cues: number | null;
  readonly cueSeconds: number | null;
}

export const isLongRest = ({ bars, seconds }: RestBeforeEntry, { cues, cueSeconds }: CueWish): boolean =>
  (cues !== null && bars >= cues) || (cueSeconds !== null && seconds >= cueSeconds);

/** Less of a bar before the entry is too short to be read. */
const LEAST_QUARTERS = 1;

/** The bars before an entry in which a cue has room, at most so many; that of the entry where it comes late enough. */
export const cueBars = (
  { bars }: Score,
  { from, entry, bar }: Pick<RestBeforeEntry, 'from' | 'entry' | 'bar'>,
  most: number,
): readonly number[] => {
  const last = toNumber(subtract(entry, bars[bar]!.onset)) >= LEAST_QUARTERS ? bar : bar - 1;
  return bars
    .slice(Math.max(0, last - most + 1), last + 1)
    .filter(({ onset }) => compare(onset, from) >= 0)
    .map(({ index }) => index);
};

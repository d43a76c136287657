import type { Performance } from './perform-part.ts';
import { secondsInBar } from './played-bars.ts';

/** A stroke of a metronome. */
export interface PulseStroke {
  /** Seconds from the beginning of the performance. */
  readonly at: number;
  /** The first of a full bar. */
  readonly isFirst: boolean;
}

/** From so many short beats on, in threes, a bar is felt in groups of three: 6/8, 9/8, 12/8 (common practice, no source). */
const FEWEST_OF_COMPOUND = 6;

/** Rounding of bars that are sums of fractions. */
const SAME_QUARTERS = 1e-6;

/** Quarter notes from one stroke to the next. */
const strideOf = (beatQuarters: number, durationQuarters: number): number => {
  const beats = durationQuarters / beatQuarters;
  const isCompound = beatQuarters < 1 && beats >= FEWEST_OF_COMPOUND && Math.abs(beats % 3) < SAME_QUARTERS;
  return isCompound ? 3 * beatQuarters : beatQuarters;
};

/** The strokes of one time through a bar. An upbeat has none that counts as the first. */
export const pulseOf = ({ bars }: Pick<Performance, 'bars'>, played: number): readonly PulseStroke[] => {
  const { at, sound } = bars[played]!;
  const { onsetQuarters, durationQuarters, beatQuarters } = sound;
  const stride = strideOf(beatQuarters, durationQuarters);
  const next = bars[played + 1]?.sound;
  const isUpbeat =
    played === 0 && next !== undefined && durationQuarters < next.durationQuarters - SAME_QUARTERS;
  return Array.from({ length: Math.ceil(durationQuarters / stride - SAME_QUARTERS) }, (_, i) => ({
    at: at + secondsInBar(sound, onsetQuarters + i * stride),
    isFirst: i === 0 && !isUpbeat,
  }));
};

/**
 * The strokes that are counted before a place is played: a bar of its metre at its tempo, in seconds before it, so that
 * the music begins where the next stroke would be.
 */
export const countIn = (
  { bars }: Pick<Performance, 'bars'>,
  played: number,
): readonly { readonly before: number; readonly isFirst: boolean }[] => {
  const bar = bars[played];
  if (bar === undefined) return [];
  const { beatQuarters, tempi } = bar.sound;
  // The metre of an upbeat is that of the bar after it.
  const full = Math.max(bar.sound.durationQuarters, bars[played + 1]?.sound.durationQuarters ?? 0);
  const stride = strideOf(beatQuarters, full);
  const strokes = Math.max(1, Math.round(full / stride));
  const seconds = stride * tempi[0]!.secondsPerQuarter;
  return Array.from({ length: strokes }, (_, i) => ({
    before: (strokes - i) * seconds,
    isFirst: i === 0,
  }));
};

import { type Place, readFraction, toNumber } from '../../../../engine/index.ts';
import type { BarPlace, PlannedPart } from '../planner/planned-part.ts';

/** The score time of a place, in quarters; that of the last bar where the part has no such bar. */
export const quartersOfPlace = (
  { bars }: Pick<PlannedPart, 'bars'>,
  { barIndex: bar, beat }: Place,
): number => {
  const there = bars[Math.min(bar, bars.length - 1)];
  const beats = readFraction(beat);
  if (there === undefined || beats === null) return 0;
  return there.onsetQuarters + (toNumber(beats) - 1) * there.beatQuarters;
};

/** Closer than any two moments of a score. */
const SAME_QUARTERS = 1e-6;

/**
 * When a move is told that is made at a score time (in quarters): what is drawn stands where the words say, at the start of
 * a bar of rest (`toldAtIn`).
 */
export const quartersTold = (part: Pick<PlannedPart, 'bars'>, told: Place, quarters: number): number => {
  const there = quartersOfPlace(part, told);
  return Math.abs(there - quarters) < SAME_QUARTERS ? quarters : there;
};

/** The beats of a bar, from 1. */
export const beatsIn = ({ durationQuarters, beatQuarters }: BarPlace): readonly string[] =>
  Array.from(
    { length: Math.max(1, Math.ceil(durationQuarters / beatQuarters - 1e-9)) },
    (_, i) => `${i + 1}`,
  );

/** Where a bar ends: the start of the next one, or past the last beat of the last. */
export const endOfBar = ({ bars }: Pick<PlannedPart, 'bars'>, bar: number): Place => {
  if (bar + 1 < bars.length) return { barIndex: bar + 1, beat: '1' };
  return { barIndex: bar, beat: pastLastBeat(bars[bar]!) };
};

/** The beat at which a bar has just ended, as a fraction: bars may be incomplete. */
const pastLastBeat = ({ durationQuarters, beatQuarters }: BarPlace): string => {
  const beats = durationQuarters / beatQuarters + 1;
  for (let den = 1; den <= 96; den += 1) {
    if (Math.abs(beats * den - Math.round(beats * den)) < 1e-6) {
      return den === 1 ? `${Math.round(beats)}` : `${Math.round(beats * den)}/${den}`;
    }
  }
  return `${Math.floor(beats)}`;
};

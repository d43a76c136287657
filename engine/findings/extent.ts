import { formatBeatText } from '../music/format-beat.ts';
import { rationalKey } from '../music/rational.ts';
import type { Finding } from './model.ts';

/** How far a finding goes: printed bar numbers, a beat as an exact fraction, and how much is concerned. */
export interface Extent {
  readonly from: string;
  readonly until: string;
  readonly beat: string;
  readonly places: number;
  readonly notes: number;
}

/** How far a finding of a plan goes. */
export const extentOf = ({
  barNumber,
  beat,
  places,
  notes,
}: Pick<Finding<string>, 'barNumber' | 'beat' | 'places' | 'notes'>): Extent => ({
  from: barNumber,
  until: places.at(-1)!.barNumber,
  beat: rationalKey(beat),
  places: places.length,
  notes: notes.length,
});

/**
 * Where a finding is, in words.
 *
 * @example nameExtent(...) // 'bar 17, beat 2½', or for several places 'bars 17-18, 34 notes'
 */
export const nameExtent = ({ from, until, beat, places, notes }: Extent): string => {
  const bar = from === '' ? 'a bar without number' : `bar ${from}`;
  if (places === 1) return `${bar}, beat ${formatBeatText(beat)}`;
  const bars = from === until || from === '' || until === '' ? bar : `bars ${from}-${until}`;
  return `${bars}, ${notes > 0 ? `${notes} ${notes === 1 ? 'note' : 'notes'}` : `${places} places`}`;
};

import { rationalKey } from '../music/rational.ts';
import { nameBars, namePlaceInBar } from '../words/bars.ts';
import { nameCount } from '../words/counts.ts';
import type { FindingCode } from './catalogue.ts';
import type { Finding } from './model.ts';

/** How far a finding goes: names of bars, a beat as an exact fraction, and how much is concerned. */
export interface Extent {
  readonly from: string;
  readonly until: string;
  readonly beat: string;
  readonly places: number;
  readonly notes: number;
}

/** How far a finding of a plan goes. */
export const extentOf = ({
  barName,
  beat,
  places,
  notes,
}: Pick<Finding<FindingCode>, 'barName' | 'beat' | 'places' | 'notes'>): Extent => ({
  from: barName,
  until: places.at(-1)!.barName,
  beat: rationalKey(beat),
  places: places.length,
  notes: notes.length,
});

/**
 * Where a finding is, in words.
 *
 * @example nameExtent(...) // 'bar 17, beat 2½', or for several places 'bars 17–18, 34 notes'
 */
export const nameExtent = ({ from, until, beat, places, notes }: Extent): string => {
  if (places === 1) return namePlaceInBar(from, beat);
  return `${nameBars(from, until)}, ${notes > 0 ? nameCount(notes, 'note') : nameCount(places, 'place')}`;
};

import {
  add,
  type Bar,
  compare,
  midiOf,
  type Note,
  type Rational,
  rationalKey,
  subtract,
  toNumber,
} from '../../engine/index.ts';
import type { BarOfSigns } from './other-part.ts';

/** What a line of another part plays in the bars before an entry. */
export interface CuePassage {
  /** Of one voice, within the bars, before the entry; not empty. */
  readonly notes: readonly Note[];
  readonly bars: readonly Bar[];
  readonly signs: readonly BarOfSigns[];
  readonly entry: Rational;
}

/*
 * What makes a line easy to hear and to follow; only the ratios count, and the unit is one step of loudness. Common
 * practice of cueing, no source: the melody, what is loud, what is marked as a solo; not tremolo or held chords.
 */
const PER_LOUDNESS = 1;
const USUAL_LOUDNESS = 3;
const SOLO = 5;
const PER_ONSET = 0.6;
const MOST_ONSETS = 6;
const DENSE = 12;
const TOO_DENSE = 3;
const PER_PITCH = 0.6;
const MOST_PITCHES = 5;
const TREMOLO = 6;
const CHORDS = 3;
const OUT_OF_RANGE = 4;
const ENDS_EARLY = 5;
/** Of two that are alike the upper one is heard: for each octave. */
const PER_OCTAVE = 0.3;

/** The cue has to lead into the entry: it may fall silent so many quarters before it. */
const LATEST_END_QUARTERS = 1;

/** C2 to C7 by MIDI numbers: what can be read at a glance, and is heard as a pitch. */
const RANGE = { lowest: 36, highest: 96 } as const;

const SOLO_WORDS = /\b(?:sol[oi]|marc|espr|cantabile|en dehors|hervortretend|in evidenza|ben cantando)/i;

/** How well a line serves as a cue; the higher the better, and below 0 it is of no use. */
export const prominenceOf = (passage: CuePassage): number => {
  const { notes, bars, signs } = passage;
  const struck = notes.filter(({ tiedFrom, grace }) => tiedFrom === null && grace === null);
  if (struck.length === 0) return Number.NEGATIVE_INFINITY;
  const share = (of: (note: Note) => boolean): number => struck.filter(of).length / struck.length;
  const chordOf = new Map<string, number>();
  for (const { chord } of struck) chordOf.set(chord, (chordOf.get(chord) ?? 0) + 1);
  const onsets = new Set(struck.map(({ onset }) => rationalKey(onset))).size / bars.length;
  const pitches = new Set(struck.map(({ pitch }) => midiOf(pitch))).size;
  const numbers = struck.map(({ pitch }) => midiOf(pitch));
  const loudness = signs.at(-1)?.loudness ?? USUAL_LOUDNESS;
  const mean = numbers.reduce((sum, each) => sum + each, 0) / numbers.length;
  return (
    PER_LOUDNESS * (loudness - USUAL_LOUDNESS) +
    (signs.some(({ words }) => words.some((each) => SOLO_WORDS.test(each))) ? SOLO : 0) +
    PER_ONSET * Math.min(onsets, MOST_ONSETS) -
    (onsets > DENSE ? TOO_DENSE : 0) +
    PER_PITCH * (Math.min(pitches, MOST_PITCHES) - 2) +
    PER_OCTAVE * ((mean - RANGE.lowest) / 12) -
    TREMOLO * share(({ tremolo }) => tremolo !== null) -
    CHORDS * share(({ chord }) => chordOf.get(chord)! > 1) -
    OUT_OF_RANGE * share(({ pitch }) => !isInRange(midiOf(pitch))) -
    (endsEarly(passage) ? ENDS_EARLY : 0)
  );
};

const isInRange = (number: number): boolean => number >= RANGE.lowest && number <= RANGE.highest;

const endsEarly = ({ notes, entry }: CuePassage): boolean => {
  const end = notes.reduce((latest, { onset, duration }) => {
    const each = add(onset, duration);
    return compare(each, latest) > 0 ? each : latest;
  }, notes[0]!.onset);
  return toNumber(subtract(entry, end)) > LATEST_END_QUARTERS;
};

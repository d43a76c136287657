import { Chord, ChordType, Scale, ScaleType } from 'tonal';
import { maskOf } from '../music/pitch-classes.ts';

/** A kind of chord or scale, before it has a root. */
export interface SoundType {
  readonly kind: 'chord' | 'scale';
  /** What follows the root in its name: “major seventh”. With a root before it, the search for sounds reads it. */
  readonly name: string;
  /** Semitones above the root, the root included, in order. */
  readonly intervals: readonly number[];
  /** The same as pitch classes on C. */
  readonly mask: number;
  /** The notes on a root, spelled as theory spells them. */
  readonly spellOn: (root: string) => readonly string[];
}

/**
 * The chords that players and composers call by name, by the names of tonal. “C major” is a scale, so that its triad is
 * told by that word.
 */
const CHORD_NAMES: Readonly<Record<string, string>> = {
  major: 'major triad',
  minor: 'minor triad',
  diminished: 'diminished triad',
  augmented: 'augmented triad',
  'suspended second': 'suspended second',
  'suspended fourth': 'suspended fourth',
  sixth: 'sixth',
  'minor sixth': 'minor sixth',
  'dominant seventh': 'dominant seventh',
  'major seventh': 'major seventh',
  'minor seventh': 'minor seventh',
  'minor/major seventh': 'minor/major seventh',
  'half-diminished': 'half-diminished',
  'diminished seventh': 'diminished seventh',
  'augmented seventh': 'augmented major seventh',
  'suspended fourth seventh': 'suspended fourth seventh',
  'dominant ninth': 'dominant ninth',
  'dominant flat ninth': 'dominant flat ninth',
  'dominant sharp ninth': 'dominant sharp ninth',
  'major ninth': 'major ninth',
  'minor ninth': 'minor ninth',
  'minor/major ninth': 'minor/major ninth',
  'sixth added ninth': 'sixth added ninth',
  'minor eleventh': 'minor eleventh',
};

const intervalsOf = (chroma: string): readonly number[] =>
  [...chroma].flatMap((bit, semitones) => (bit === '1' ? [semitones] : []));

const typeOf = (
  kind: SoundType['kind'],
  name: string,
  chroma: string,
  spellOn: SoundType['spellOn'],
): SoundType => {
  const intervals = intervalsOf(chroma);
  return { kind, name, intervals, mask: maskOf(intervals), spellOn };
};

/** Seven strings give no more pitch classes. */
const MOST_NOTES = 7;

const isPlainText = (name: string): boolean => /^[\x20-\x7e]+$/u.test(name);

/** “dorian ♭2” for tonal’s “dorian b2”; “messiaen's mode #5” is the fifth of its kind, and no sharp. */
const withSigns = (name: string): string =>
  name.replace(/^(dorian|lydian|locrian|mixolydian|minor) ([b#])(?=\d)/u, (_, mode: string, sign: string) =>
    sign === 'b' ? `${mode} ♭` : `${mode} ♯`,
  );

/** All kinds of chords and scales that strings may give: chords first, each in the order of tonal. */
export const SOUND_TYPES: readonly SoundType[] = [
  ...ChordType.all().flatMap(({ name, chroma, aliases }) => {
    const called = CHORD_NAMES[name];
    const symbol = aliases[0];
    return called === undefined || symbol === undefined
      ? []
      : [typeOf('chord', called, chroma, (root) => Chord.getChord(symbol, root).notes)];
  }),
  ...ScaleType.all().flatMap(({ name, chroma }) =>
    intervalsOf(chroma).length > MOST_NOTES || !isPlainText(name)
      ? []
      : [typeOf('scale', withSigns(name), chroma, (root) => Scale.get(`${root} ${name}`).notes)],
  ),
];

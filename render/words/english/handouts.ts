import type { Side } from '../../../engine/index.ts';
import { HANDOUTS } from '../../handouts/handout-words.ts';
import { mapValues } from './phrases.ts';

export const HANDOUTS_WORDS = {
  titles: mapValues(HANDOUTS, ({ title }) => title as string),
  pedalKeys: 'Keys on the pedal harp',
  pedalKeysLegend:
    'A major key and its relative minor have one setting. For the harmonic minor and the rising melodic minor move these pedals too. A double sharp, in brackets here, no pedal gives: it is played on the string above, whose pedal moves for it.',
  pedalKeyHeads: {
    major: 'Major',
    minor: 'Minor',
    setting: 'Setting',
    names: '',
    harmonic: 'Harmonic',
    melodic: 'Melodic, rising',
  },
  leverKeys: 'Keys on the lever harp',
  /** @param tuning the key that the open strings are tuned to */
  leverKeysLegend: (tuning: string) =>
    `The strings are tuned to ${tuning} with all levers down. “Up” is a lever to set. A note in bold is what the strings of its column are retuned to before the piece, in every octave.`,
  leverTables: {
    major: 'Major and natural minor',
    'harmonic minor': 'Harmonic minor',
    'melodic minor': 'Melodic minor, rising',
  },
  key: 'Key',
  up: 'up',
  glissandi: 'Chords and scales for glissandi',
  /** Of a root with two names. */
  glissandiPlayedAs: 'After = stands the note as which the setting gives the root.',
  glissandiLegend:
    'With these settings every string gives a note of the chord or scale, and no other. Of several settings the one with the fewest doubled strings is shown. Upper row of names: right foot; lower row: left foot.',
  sounds: {
    'diminished seventh': 'Diminished seventh',
    'dominant ninth': 'Dominant ninth',
    'dominant seventh': 'Dominant seventh',
    'minor seventh': 'Minor seventh',
    'half-diminished seventh': 'Half-diminished seventh',
    'major sixth': 'Major sixth',
    'whole tone': 'Whole tone',
    'major pentatonic': 'Major pentatonic',
    'minor pentatonic': 'Minor pentatonic',
    major: 'Major',
    'harmonic minor': 'Harmonic minor',
  },
  noSetting: (roots: readonly string[]) => `No setting gives just these notes on ${roots.join(', ')}.`,
  doubled: 'Doubled strings',
  doubledLegend:
    'Two neighbouring strings can give one pitch: for repeated notes without damping, for a tremolo on one pitch, and for a fuller sound. Three pitches stand alone: the strings beside them would need a double sharp or a double flat.',
  doubledHeads: { pitch: 'Pitch', strings: 'Strings', pedals: 'Pedals' },
  oneString: 'one only',
  twoStrings: 'two',
  oneEachFoot: (pedals: string) => `${pedals}, one with each foot`,
  bothOneFoot: (pedals: string, foot: Side) => `${pedals}, both with the ${foot} foot`,
  fullest: 'Three doubled pitches at once',
  fullestLegend: (settings: number, strings: number) =>
    `The ${settings} settings in which three pitches are doubled, so that the ${strings} strings of an octave give only four notes.`,
  mechanism: 'How pedals and discs work',
  // Common practice, no source, where the engine does not know it.
  mechanismLegend:
    'Seven pedals, one for each letter. A pedal governs all strings of its letter at once, in every octave, over rods in the column and two discs at each string.',
  positions: 'Three positions',
  positionsLegend:
    'Each disc that holds the string makes it sound a semitone higher: the thick part of the string is what sounds. All other pedals work alike. No pedal gives a double sharp or a double flat: such a note is played on a neighbouring string.',
  gives: (name: string) => `gives ${name}`,
  notches: {
    flat: 'top notch, no disc holds',
    natural: 'middle notch, the upper disc holds',
    sharp: 'bottom notch, both discs hold',
  },
  twoFeet: 'Two feet',
  pedalsOfFoot: {
    left: (letters: string) => `The left foot has the pedals ${letters}, from the outside inwards.`,
    right: (letters: string) => `The right foot has the pedals ${letters}, from the inside outwards.`,
  },
  /** How the pedals of a picture are set: for a key, or as a piece begins. */
  setFor: { key: (key: string) => `for ${key}`, opening: 'as this piece begins' },
  /** @param how the picture is set, as `setFor` says it */
  twoFeetLegend: (how: string) =>
    `Seen from the player’s seat, here set ${how}. A foot moves one pedal at a time, best while the strings of that letter are silent: one that sounds buzzes or bends.`,
  diagram: 'How a diagram is read',
  diagramLegend: (setting: string) =>
    `The same setting as it is printed: one stroke for each pedal in their order, left foot and right foot parted by the upright line. Above the line is flat, across it natural, below it sharp: ${setting}.`,
  fixed: 'Strings without discs',
  fixedHeads: { strings: 'Strings', range: 'Range', fixed: 'Without discs', harp: 'Harp' },
  fixedLegend:
    'No pedal moves these strings. They are tuned by hand before the piece to what it needs, and keep that pitch throughout. Do not raise a string above its usual pitch unless a harp technician agrees.',
  noFixed: 'none',
  /** @param name as the harp is called in English */
  pedalHarp: (_strings: number, name: string) => name,
} as const;

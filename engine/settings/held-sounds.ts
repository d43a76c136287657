import { formatChange, type Setting } from '../harp/setting.ts';
import { pitchClassOf, soundingMask } from '../harp/setting-sound.ts';
import { noteSign } from '../music/accidental.ts';
import { LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import { countBits } from '../music/pitch-classes.ts';
import { SOUND_TYPES, type SoundType } from './sound-library.ts';

/** A chord or scale that the strings of a setting give. */
export interface HeldSound {
  /** The same for the same sound, whichever strings give it: its pitch class and what follows the root in its name. */
  readonly key: string;
  readonly kind: SoundType['kind'];
  /** With its root, such as “E♭ dominant ninth”. */
  readonly name: string;
  /** The strings that give it, from the root up; doubled strings beside each other. */
  readonly strings: readonly string[];
  /** Whether all strings belong to it: a glissando gives it. */
  readonly whole: boolean;
}

/**
 * Every chord and scale that a setting holds: those that all strings belong to first, then chords, then scales, each
 * with the most notes first and from C up. Looks at each kind of sound on each pitch class.
 */
export const listHeldSounds = (setting: Setting): readonly HeldSound[] => {
  const sounding = soundingMask(setting);
  const roots = [...new Set(LETTERS_FROM_C.map((letter) => pitchClassOf(letter, setting)))];
  const held = SOUND_TYPES.flatMap((type) =>
    roots.flatMap((root) => {
      const mask = shiftMask(type.mask, root);
      return (mask & sounding) === mask ? [{ type, root, whole: mask === sounding }] : [];
    }),
  );
  return held
    .sort(
      (a, b) =>
        Number(b.whole) - Number(a.whole) ||
        KINDS.indexOf(a.type.kind) - KINDS.indexOf(b.type.kind) ||
        countBits(b.type.mask) - countBits(a.type.mask) ||
        a.root - b.root,
    )
    .map(({ type, root, whole }) => nameSound(type, root, whole, setting));
};

const KINDS: readonly SoundType['kind'][] = ['chord', 'scale'];

const shiftMask = (mask: number, semitones: number): number =>
  ((mask << semitones) | (mask >> (12 - semitones))) & 0xfff;

const nameSound = (type: SoundType, root: number, whole: boolean, setting: Setting): HeldSound => {
  const giving = (pitchClass: number): readonly Letter[] =>
    LETTERS_FROM_C.filter((letter) => pitchClassOf(letter, setting) === pitchClass);
  const named = (letter: Letter): string => `${letter}${noteSign(setting[letter])}`;
  return {
    key: `${root} ${type.name}`,
    kind: type.kind,
    name: `${named(chooseRoot(type, giving(root), setting))} ${type.name}`,
    strings: type.intervals.flatMap((semitones) =>
      giving((root + semitones) % 12).map((letter) => formatChange(letter, setting[letter])),
    ),
    whole,
  };
};

/** Of two strings that sound the root, the one on which most notes are spelled as the strings are; else the first. */
const chooseRoot = (type: SoundType, letters: readonly Letter[], setting: Setting): Letter => {
  const [first, ...others] = letters;
  if (first === undefined) throw new Error('no string sounds the root');
  if (others.length === 0) return first;
  const spelled = (letter: Letter): string => `${letter}${['b', '', '#'][setting[letter] + 1]}`;
  const strings = new Set(LETTERS_FROM_C.map(spelled));
  const spelledAlike = (letter: Letter): number =>
    type.spellOn(spelled(letter)).filter((note) => strings.has(note)).length;
  return others.reduce((best, letter) => (spelledAlike(letter) > spelledAlike(best) ? letter : best), first);
};

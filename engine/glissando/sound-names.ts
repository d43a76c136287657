import { ScaleType } from 'tonal';

/** A chord or scale as tonal calls it. */
export interface TonalName {
  readonly kind: 'chord' | 'scale';
  readonly name: string;
}

const chord = (name: string): TonalName => ({ kind: 'chord', name });
const scale = (name: string): TonalName => ({ kind: 'scale', name });

/** What players call chords and scales, in lower case, where tonal has another name for them. */
const USUAL_NAMES: Readonly<Record<string, TonalName>> = {
  'major triad': chord('M'),
  'minor triad': chord('m'),
  'augmented triad': chord('aug'),
  'diminished triad': chord('dim'),
  'dominant 7': chord('7'),
  'dom 7': chord('7'),
  'major 7': chord('maj7'),
  'maj 7': chord('maj7'),
  'minor 7': chord('m7'),
  'min 7': chord('m7'),
  'minor major 7': chord('mMaj7'),
  'dim 7': chord('dim7'),
  'diminished 7': chord('dim7'),
  '° 7': chord('dim7'),
  'o 7': chord('dim7'),
  'half diminished': chord('m7b5'),
  'half diminished 7': chord('m7b5'),
  'half dim': chord('m7b5'),
  'half dim 7': chord('m7b5'),
  ø: chord('m7b5'),
  'ø 7': chord('m7b5'),
  'augmented 7': chord('aug7'),
  'aug 7': chord('aug7'),
  'augmented major 7': chord('maj7#5'),
  'major 6': chord('6'),
  'minor 6': chord('m6'),
  'dominant 9': chord('9'),
  'major 9': chord('maj9'),
  'minor 9': chord('m9'),
  wholetone: scale('whole tone'),
  'natural minor': scale('aeolian'),
  dur: scale('major'),
  moll: scale('minor'),
  // Messiaen's second mode begins with the semitone; its other form is “whole-half diminished”. From memory.
  octatonic: scale('half-whole diminished'),
  'octatonic half whole': scale('half-whole diminished'),
  'octatonic whole half': scale('whole-half diminished'),
};

const ORDINALS: Readonly<Record<string, string>> = {
  sixth: '6',
  seventh: '7',
  ninth: '9',
  eleventh: '11',
  thirteenth: '13',
};

/** The chord or scale of a usual name such as “dim 7”, “Minor seventh” or “half-diminished”, or null. */
export const findUsualName = (name: string): TonalName | null => {
  const plain = name
    .toLowerCase()
    .replace(/[\s-]+/gu, ' ')
    .replace(/(?<=\d)th\b/gu, '')
    .replace(/\b(?:sixth|seventh|ninth|eleventh|thirteenth)\b/gu, (ordinal) => ORDINALS[ordinal]!)
    .replace(/(?<=[\p{L}°])(?=\d)/gu, ' ')
    .replace(/ (?:chord|scale)$/u, '')
    .trim();
  return USUAL_NAMES[plain] ?? null;
};

/** All names that a sound may have after its root, for offering those nearest to one that is not known. */
export const SOUND_NAMES: readonly string[] = [
  ...Object.keys(USUAL_NAMES),
  ...ScaleType.all().flatMap(({ name, aliases }) => [name, ...aliases]),
].filter((name) => /^[\x20-\x7e]+$/u.test(name));

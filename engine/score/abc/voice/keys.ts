import { isLetter, keyAlter, LETTERS, type Letter } from '../../../music/pitch.ts';
import { rational } from '../../../music/rational.ts';
import type { ParsedKey, ParsedMeter } from '../parsed-tune.ts';
import type { Clef, TuneKey, TuneMeter } from '../tune.ts';

/** Semitones of the parser's accidentals. */
const ALTERS: ReadonlyMap<string, number> = new Map([
  ['natural', 0],
  ['sharp', 1],
  ['flat', -1],
  ['dblsharp', 2],
  ['dblflat', -2],
  ['quartersharp', 0.5],
  ['quarterflat', -0.5],
]);

export const alterOfName = (name: string): number | undefined => ALTERS.get(name);

/** Modes by the parser's names. */
const MODES: ReadonlyMap<string, NonNullable<TuneKey['mode']>> = new Map([
  ['', 'major'],
  ['ion', 'major'],
  ['m', 'minor'],
  ['aeo', 'minor'],
  ['dor', 'dorian'],
  ['phr', 'phrygian'],
  ['lyd', 'lydian'],
  ['mix', 'mixolydian'],
  ['loc', 'locrian'],
]);

/** The key of a tune: a signature that is no row of fifths is printed as none, with accidentals at its notes. */
export const readKey = ({ accidentals = [], root, mode }: ParsedKey): TuneKey => {
  const alters = new Map<Letter, number>();
  for (const { acc, note } of accidentals) {
    const letter = note.toUpperCase();
    const alter = ALTERS.get(acc);
    if (isLetter(letter) && alter !== undefined && alter !== 0) alters.set(letter, alter);
  }
  const printed = FIFTHS.find((fifths) => isSignature(alters, fifths)) ?? 0;
  return {
    alters,
    printed,
    mode: /^[A-G]/u.test(root ?? '') ? (MODES.get(mode?.toLowerCase() ?? '') ?? null) : null,
  };
};

const FIFTHS = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7] as const;

const isSignature = (alters: ReadonlyMap<Letter, number>, fifths: number): boolean =>
  LETTERS.every((letter) => (alters.get(letter) ?? 0) === keyAlter(fifths, letter));

/** Whether the printed signature says what the key says. */
export const isPrintedWhole = ({ alters, printed }: TuneKey): boolean => isSignature(alters, printed);

export const isSameKey = (a: TuneKey, b: TuneKey): boolean =>
  LETTERS.every((letter) => (a.alters.get(letter) ?? 0) === (b.alters.get(letter) ?? 0));

/** The meter, or null for music that is not measured. */
export const readMeter = ({ type, value = [] }: ParsedMeter): TuneMeter | null => {
  if (type === 'common_time') return { count: '4', unit: 4, symbol: 'common', length: rational(4) };
  if (type === 'cut_time') return { count: '2', unit: 2, symbol: 'cut', length: rational(4) };
  const terms = value.map(({ num, den }) => ({ num: num.replace(/[^\d+]/gu, ''), unit: Number(den ?? '') }));
  const unit = terms[0]?.unit ?? 0;
  const count = terms.map(({ num }) => num).join('+');
  const beats = count.split('+').reduce((sum, term) => sum + Number(term), 0);
  const isUsual =
    Number.isInteger(Math.log2(unit)) && unit <= 64 && terms.every((term) => term.unit === unit);
  if (type !== 'specified' || !isUsual || !(beats >= 1 && beats <= 64)) return null;
  return { count, unit, symbol: null, length: rational(4 * beats, unit) };
};

/** Clefs by the parser's names. */
const CLEFS: Readonly<Record<string, Pick<Clef, 'shape' | 'line'>>> = {
  treble: { shape: 'G', line: 2 },
  bass: { shape: 'F', line: 4 },
  bass3: { shape: 'F', line: 3 },
  alto: { shape: 'C', line: 3 },
  alto1: { shape: 'C', line: 1 },
  alto2: { shape: 'C', line: 2 },
  tenor: { shape: 'C', line: 4 },
  perc: { shape: 'perc', line: 3 },
};

/** A clef by the parser's name, such as `bass` or `treble-8`; the treble clef for one that is not known. */
export const readClef = (type: string): Clef => {
  const base = CLEFS[type.replace(/[+-]8$/u, '')] ?? CLEFS.treble!;
  return { ...base, octaves: type.endsWith('+8') ? 1 : type.endsWith('-8') ? -1 : 0 };
};

export const isSameClef = (a: Clef, b: Clef): boolean =>
  a.shape === b.shape && a.line === b.line && a.octaves === b.octaves;

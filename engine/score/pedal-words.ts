import type { Position } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';

/** What words near the harp say of the pedals. */
export interface PedalWords {
  readonly positions: Partial<Record<Letter, Position>>;
  /** To be prepared ahead of need. */
  readonly ahead: boolean;
}

type Naming = 'english' | 'german' | 'fixed-do';

/** One way to read a name: German B is B flat, English B is B. `marked`: the name itself tells the accidental. */
interface Reading {
  readonly naming: Naming;
  readonly letter: Letter;
  readonly position: Position;
  readonly marked: boolean;
}

/**
 * Reads words that are nothing but names of notes as positions of pedals: English, German or fixed-do, with real,
 * SMuFL or ASCII accidentals or their names, in one naming throughout; a word such as “préparez” may lead or follow.
 *
 * A lone bare letter is a rehearsal letter, and bare names mean naturals only beside marked ones or where all seven
 * pedals are named (common practice, no source).
 *
 * @returns null for any other text, a letter named twice, or names that two namings read differently
 * @example readPedalWords('préparez mi♭ fa♯') // { positions: { E: -1, F: 1 }, ahead: true }
 */
export const readPedalWords = (text: string): PedalWords | null => {
  if (text.length > LONGEST_TEXT) return null;
  const plain = withPlainSigns(text.normalize('NFC'));
  const names = plain.replace(AHEAD, ' ');
  const tokens = splitNames(names);
  if (tokens === null || tokens.length === 0 || tokens.length > 7) return null;
  const settings = (['english', 'german', 'fixed-do'] as const)
    .map((naming) => positionsIn(tokens, naming))
    .filter((positions) => positions !== null);
  const [first, ...others] = settings;
  if (first === undefined || others.some((other) => !sameAs(first, other))) return null;
  return { positions: first, ahead: names !== plain };
};

/** Whether the text asks for a setting ahead of need, as “préparez” does. */
export const asksAhead = (text: string): boolean => text.slice(0, LONGEST_TEXT).search(AHEAD) >= 0;

/** Seven names in words, with room to spare. */
const LONGEST_TEXT = 200;

/** Signs of SMuFL (U+E260-E262) and words for accidentals as the three signs. */
const withPlainSigns = (text: string): string =>
  text
    .replace(/\uE260/gu, '♭')
    .replace(/\uE261/gu, '♮')
    .replace(/\uE262/gu, '♯')
    .replace(/[ -]*(?<![\p{L}])(?:flat|b[ée]mol|bemolle)(?!\p{L})/giu, '♭')
    .replace(/[ -]*(?<![\p{L}])(?:natural|b[ée]carre|bequadro|naturale|becuadro)(?!\p{L})/giu, '♮')
    .replace(/[ -]*(?<![\p{L}])(?:sharp|di[èe]se|diesis|sostenido)(?!\p{L})/giu, '♯')
    .replace(/[ \u00A0\u2009\u202F]+(?=[♭♮♯])/gu, '');

const AHEAD =
  /(?<!\p{L})(?:prepare|pr[ée]par(?:ez|er)|pr[ée]p\.?|vorbereiten|preparare|preparate|prepara|preparar)(?!\p{L})[:.]?/giu;

/** The names between spaces, commas, bars and the like; null if something else stands between them. */
const splitNames = (text: string): readonly string[] | null => {
  const parts = text
    .replace(/(?<![\p{L}])(?:et|and|und)(?![\p{L}])/giu, ' ')
    .split(/[\s,;|/()[\]&+·–—-]+/u)
    .filter((part) => part !== '');
  return parts.every((part) => NAME.test(part)) ? parts : null;
};

const NAME = /^(?:[A-Ha-h](?:[♭♮♯#bn]|[ei]s)?|[Ee]s|[Aa]s|(?:do|ut|r[ée]|mi|fa|sol|la|si)[♭♮♯#bn]?)[.:]?$/iu;

/** The positions that all tokens state in one naming, or null where one has no meaning in it. */
const positionsIn = (tokens: readonly string[], naming: Naming): Partial<Record<Letter, Position>> | null => {
  const positions: Partial<Record<Letter, Position>> = {};
  let marked = 0;
  for (const token of tokens) {
    const reading = READERS[naming](token.replace(/[.:]$/u, ''), tokens.length);
    if (reading === null || positions[reading.letter] !== undefined) return null;
    positions[reading.letter] = reading.position;
    if (reading.marked) marked += 1;
  }
  return marked > 0 || tokens.length === 7 ? positions : null;
};

const sameAs = (
  one: Partial<Record<Letter, Position>>,
  other: Partial<Record<Letter, Position>>,
): boolean => {
  const letters = Object.keys({ ...one, ...other }) as Letter[];
  return letters.every((letter) => one[letter] === other[letter]);
};

const POSITION_OF_SIGN: Readonly<Record<string, Position>> = {
  '': 0,
  '♮': 0,
  n: 0,
  '♭': -1,
  b: -1,
  '♯': 1,
  '#': 1,
};

/**
 * Capital letters with any sign, small ones with a real sign or `#`: “ab” and “an” are words of other languages, and
 * so is “An” unless another name stands beside it.
 */
const readEnglish = (token: string, names: number): Reading | null => {
  const sign = token.slice(1);
  const position = POSITION_OF_SIGN[sign];
  const letter = token.slice(0, 1).toUpperCase();
  const small = token.slice(0, 1) !== letter;
  if (position === undefined || !/^[A-G]$/u.test(letter)) return null;
  if (small && !/[♭♮♯#]/u.test(sign)) return null;
  if (sign === 'n' && names === 1) return null;
  return { naming: 'english', letter: letter as Letter, position, marked: sign !== '' };
};

/** Letters with -is and -es; B is B flat and H is B natural. “des”, “es” and “as” are words too, when alone and small. */
const readGerman = (token: string, names: number): Reading | null => {
  const name = token.slice(0, 1).toUpperCase() + token.slice(1);
  const parts = /^([A-H])(is|es|s)?(♮)?$/u.exec(name);
  if (parts === null || (parts[2] !== undefined && parts[3] !== undefined)) return null;
  const [, written, suffix = '', natural = ''] = parts;
  const small = token.slice(0, 1) !== written;
  if (small && natural === '' && (suffix === '' || (suffix !== 'is' && names === 1))) return null;
  if (suffix === 's' && written !== 'E' && written !== 'A') return null;
  if (suffix === 'es' && (written === 'E' || written === 'A' || written === 'B')) return null;
  if (suffix === 'is' && written === 'B') return null;
  const position = suffix === 'is' ? 1 : suffix !== '' || (written === 'B' && natural === '') ? -1 : 0;
  const letter = written === 'H' ? 'B' : (written as Letter);
  return { naming: 'german', letter, position, marked: suffix !== '' || natural !== '' };
};

const FIXED_DO: Readonly<Record<string, Letter>> = {
  do: 'C',
  ut: 'C',
  re: 'D',
  ré: 'D',
  mi: 'E',
  fa: 'F',
  sol: 'G',
  la: 'A',
  si: 'B',
};

const readFixedDo = (token: string): Reading | null => {
  const parts = /^(\p{L}+?)([♭♮♯#]|(?<=do|ut|r[eé]|mi|fa|sol|la|si)[bn])?$/iu.exec(token);
  const letter = parts === null ? undefined : FIXED_DO[parts[1]!.toLowerCase()];
  const sign = parts?.[2] ?? '';
  const position = POSITION_OF_SIGN[sign.toLowerCase()];
  if (letter === undefined || position === undefined) return null;
  return { naming: 'fixed-do', letter, position, marked: sign !== '' };
};

const READERS: Readonly<Record<Naming, (token: string, names: number) => Reading | null>> = {
  english: readEnglish,
  german: readGerman,
  'fixed-do': readFixedDo,
};

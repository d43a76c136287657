import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';

/** How notes are called: German B is B flat and H is B natural; fixed-do says syllables. */
export type Naming = 'english' | 'german' | 'fixed-do';

export const NAMINGS: readonly Naming[] = ['english', 'german', 'fixed-do'];

/** A name of a note as it stands in a text: indices of the text, `end` exclusive. */
export interface WrittenName {
  readonly start: number;
  readonly end: number;
  /** Letter or syllable, with the ending of a German name. */
  readonly stem: string;
  /** `n` and `b` are letters that stand for a sign; empty where there is none. */
  readonly sign: '' | '♭' | '♮' | '♯' | 'n' | 'b';
}

/** What a name says in one naming. `marked`: the name itself tells the accidental. */
export interface NameReading {
  readonly letter: Letter;
  readonly position: Position;
  readonly marked: boolean;
}

/** A pattern for words in small letters, capitals or both: the sign `b` is told from the name B by its case. */
const inAnyCase = (pattern: string): string =>
  pattern.replace(/(?<!\\)\p{Ll}/gu, (letter) => `[${letter}${letter.toUpperCase()}]`);

const SYLLABLE = inAnyCase('do|ut|r(?:e|é)|mi|fa|sol|la|si');
const FLAT = inAnyCase('flat|b(?:e|é)mol(?:le)?');
const NATURAL = `${inAnyCase('naturale?|b(?:e|é)carre|bequadro|becuadro|nat')}(?:\\.|(?!\\p{L}))`;
const SHARP = inAnyCase('sharp|di(?:e|è)se|diesis|sostenido');
const SIGN = '♭♮♯\\uE260-\\uE262';
const APART = '[ \\u00A0\\u2009\\u202F]';

/** A word for an accidental: after a space or a hyphen, or joined to its name. */
const SIGN_WORD = `(?:${APART}|-)*(?:(${FLAT})|(${NATURAL})|(${SHARP}))`;

/**
 * A name with what tells its accidental: a sign, at some distance too; a lone `b` or `#` after a space; a word; behind
 * its letter or its sign the number of an octave, which says nothing of the pedal.
 */
const NAME = new RegExp(
  [
    '(?<![\\p{L}\\p{N}])',
    `(${SYLLABLE}|[A-Ha-h](?:[iIeE]s|(?<=[EeAa])s)?)[1-8]?`,
    `(?:${APART}*([${SIGN}#])|([bn])|${APART}(b)(?!${SIGN_WORD}|${APART}*[${SIGN}#])|${SIGN_WORD})?`,
    '(?:[1-8](?![\\p{N}/]))?',
    `(?![\\p{L}\\p{N}${SIGN}#])`,
  ].join(''),
  'gu',
);

const SIGN_OF: Readonly<Record<string, WrittenName['sign']>> = {
  b: 'b',
  n: 'n',
  '♭': '♭',
  '♮': '♮',
  '♯': '♯',
  '#': '♯',
  // SMuFL 1.4, Standard accidentals.
  '\uE260': '♭',
  '\uE261': '♮',
  '\uE262': '♯',
};

/** All names in a text, in order. */
export const findNames = (text: string): readonly WrittenName[] =>
  [...text.matchAll(NAME)].map((match) => {
    const [whole, stem, sign, glued, apart, , , , flat, natural, sharp] = match;
    const inWords = flat !== undefined ? '♭' : natural !== undefined ? '♮' : sharp !== undefined ? '♯' : null;
    return {
      start: match.index,
      end: match.index + whole.length,
      stem: stem!,
      sign: inWords ?? SIGN_OF[sign ?? glued ?? apart ?? ''] ?? '',
    };
  });

/** The text without its names, each a space. */
export const withoutNames = (text: string, names: readonly WrittenName[]): string => {
  let rest = '';
  let from = 0;
  for (const { start, end } of names) {
    rest += `${text.slice(from, start)} `;
    from = end;
  }
  return rest + text.slice(from);
};

const POSITION_OF: Readonly<Record<WrittenName['sign'], Position>> = {
  '': 0,
  '♮': 0,
  n: 0,
  '♭': -1,
  b: -1,
  '♯': 1,
};

/** Small names that are words too: read only beside others, or where the part's other words are of their naming. */
const WORDS_TOO: ReadonlySet<string> = new Set(['ab', 'an', 'as', 'des']);

export const isWordToo = ({ stem, sign }: WrittenName): boolean => WORDS_TOO.has(stem + sign);

/** @returns null where the name means nothing in the naming */
export const readName = (name: WrittenName, naming: Naming): NameReading | null => READERS[naming](name);

const readEnglish = ({ stem, sign }: WrittenName): NameReading | null => {
  const letter = stem.toUpperCase();
  if (!/^[A-G]$/u.test(letter) || (sign === '' && stem !== letter)) return null;
  if (sign === 'n' && stem !== letter) return null;
  return { letter: letter as Letter, position: POSITION_OF[sign], marked: sign !== '' };
};

/** Letters with -is and -es; B is B flat and H is B natural. */
const readGerman = ({ stem, sign }: WrittenName): NameReading | null => {
  const written = stem.slice(0, 1).toUpperCase();
  const suffix = stem.slice(1).toLowerCase();
  if (!/^[A-H]$/u.test(written) || !/^(?:is|es|s)?$/u.test(suffix)) return null;
  // “B♭” says what “B” does; no other name takes a flat or a sharp as a sign.
  const isFlatB = written === 'B' && (sign === '♭' || sign === 'b');
  if (sign !== '' && (suffix !== '' || (sign !== '♮' && !isFlatB))) return null;
  if (suffix === 'es' && (written === 'E' || written === 'A')) return null;
  if (suffix !== '' && written === 'B') return null;
  // A bare small letter is no name: “e” and “a” are words.
  if (suffix === '' && sign === '' && stem !== written) return null;
  const letter = written === 'H' ? 'B' : (written as Letter);
  const flat = suffix === 'es' || suffix === 's' || isFlatB || (written === 'B' && sign === '');
  return { letter, position: suffix === 'is' ? 1 : flat ? -1 : 0, marked: suffix !== '' || sign !== '' };
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

const readFixedDo = ({ stem, sign }: WrittenName): NameReading | null => {
  const letter = FIXED_DO[stem.toLowerCase()];
  return letter === undefined ? null : { letter, position: POSITION_OF[sign], marked: sign !== '' };
};

const READERS: Readonly<Record<Naming, (name: WrittenName) => NameReading | null>> = {
  english: readEnglish,
  german: readGerman,
  'fixed-do': readFixedDo,
};

/** “C♯ = D♭”, “= D♭” tell the string of a note, and move nothing; “=>” is an arrow (common practice, no source). */
export const tellsAnotherName = (text: string): boolean => /=(?!>)/u.test(text);

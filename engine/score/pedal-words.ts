import { type Foot, footOf, type Position } from '../harp/setting.ts';
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
 * Words that only say that pedals are meant (“Ped.”) may stand with them, and the sides of the player (“LH: C♯ RH: F”)
 * where each names the pedals of its own foot. A lone bare letter is a rehearsal letter, and bare names mean naturals
 * only beside marked ones or where all seven pedals are named; two names joined by a stroke, one of them bare, are a
 * chord over a bass note or a stretch from one rehearsal letter to another (common practice, no source).
 *
 * @returns null for any other text, a letter named twice, or names that two namings read differently
 * @example readPedalWords('préparez mi♭ fa♯') // { positions: { E: -1, F: 1 }, ahead: true }
 */
export const readPedalWords = (text: string): PedalWords | null => {
  if (text.length > LONGEST_TEXT) return null;
  const lone = LONE_NATURAL.exec(text.trim())?.[1];
  if (lone !== undefined) return { positions: { [lone]: 0 }, ahead: false };
  const plain = withPlainSigns(text.normalize('NFC'));
  if (CHORD_OR_STRETCH.test(plain.trim())) return null;
  const names = plain.replace(AHEAD, ' ');
  const sides = splitSides(names.replace(PEDAL_WORD, ' '));
  const tokens = sides.flatMap((side) => side.tokens);
  if (tokens.length === 0 || tokens.length > 7 || !tokens.every((token) => NAME.test(token))) return null;
  const settings = (['english', 'german', 'fixed-do'] as const)
    .map((naming) => positionsIn(tokens, naming))
    .filter((positions) => positions !== null);
  const [first, ...others] = settings;
  if (first === undefined || others.some((other) => !sameAs(first, other))) return null;
  if (!isByFeet(first, sides)) return null;
  return { positions: first, ahead: names !== plain };
};

/**
 * Whether a text that cannot be read is meant to name pedals all the same, as “E♭ Fx A♮” is: two or more names with
 * accidentals, or one beside a word such as “Ped.”, and no more of other things than of names; or bare capitals alone,
 * unless strokes join them.
 */
export const seemsPedalWords = (text: string): boolean => {
  if (text.length > LONGEST_TEXT) return false;
  const plain = withPlainSigns(text.normalize('NFC'));
  if (CHORD_OR_STRETCH.test(plain.trim())) return false;
  const names = plain.replace(AHEAD, ' ').replace(PEDAL_WORD, ' ');
  const tokens = splitSides(names).flatMap((side) => side.tokens);
  const marked = tokens.filter((token) => MARKED_NAME.test(token)).length;
  const named = tokens.filter((token) => NAME.test(token)).length;
  if (tokens.length > 1 && tokens.every((token) => BARE_CAPITAL.test(token))) return !JOIN.test(names);
  return marked >= (names === plain ? 2 : 1) && tokens.length - named <= named;
};

/** What joins a chord and its bass note, or the ends of a stretch. */
const JOIN = /[/+&–—-]/u;

/** “D/E”, “B♭/D”, “A-D”: two names, at most one of them with an accidental. */
const CHORD_OR_STRETCH = /^[A-H](?:[♭♮♯#b]\s?[/+&–—-]\s?[A-H]|\s?[/+&–—-]\s?[A-H][♭♮♯#b]?)$/u;

/** A natural alone, written with an n: “An”, “En” are words, and “Bn” is a bassoon. */
const LONE_NATURAL = /^([CDFG])n$/u;

/** Words that say no more than that pedals are meant. */
const PEDAL_WORD = /(?<!\p{L})(?:ped(?:als?|ale|ali|ales)?|p[ée]dales?)(?!\p{L})[:.]?/giu;

/** Names after the word for a side, or without one. */
interface Side {
  readonly foot: Foot | null;
  readonly tokens: readonly string[];
}

/** The words for the two sides. Where only one stands, it tells which hand plays. */
const SIDE_WORD = /(?<!\p{L})([LR])(?:\.?[HF]\.?:?|:)(?![\p{L}♭♮♯#])/gu;

const splitSides = (text: string): readonly Side[] => {
  const [first, second, ...more] = [...text.matchAll(SIDE_WORD)];
  const isPair = first !== undefined && second !== undefined && first[1] !== second[1] && more.length === 0;
  if (!isPair || text.slice(0, first.index).trim() !== '') return [{ foot: null, tokens: splitNames(text) }];
  const sideOf = (word: RegExpMatchArray, end: number): Side => ({
    foot: word[1] === 'L' ? 'left' : 'right',
    tokens: splitNames(text.slice(word.index! + word[0].length, end)),
  });
  return [sideOf(first, second.index!), sideOf(second, text.length)];
};

/** Whether each side names pedals of its foot alone: other names after the words for the sides are notes for hands. */
const isByFeet = (positions: Partial<Record<Letter, Position>>, sides: readonly Side[]): boolean => {
  const letters = Object.keys(positions) as Letter[];
  let from = 0;
  return sides.every(({ foot, tokens }) => {
    const own = letters.slice(from, from + tokens.length);
    from += tokens.length;
    return foot === null || own.every((letter) => footOf(letter) === foot);
  });
};

/** Words to be quoted: on one line, and not many. */
export const shortenWords = (text: string): string => {
  const line = text.replace(/\s+/gu, ' ').trim();
  return line.length > LONGEST_QUOTE ? `${line.slice(0, LONGEST_QUOTE)}…` : line;
};

const LONGEST_QUOTE = 60;

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
    .replace(/[ -]*(?<![\p{L}])(?:natural|nat\.?|b[ée]carre|bequadro|naturale|becuadro)(?!\p{L})/giu, '♮')
    .replace(/[ -]*(?<![\p{L}])(?:sharp|di[èe]se|diesis|sostenido)(?!\p{L})/giu, '♯')
    .replace(/[ \u00A0\u2009\u202F]+(?=[♭♮♯])/gu, '');

const AHEAD =
  /(?<!\p{L})(?:prepare|pr[ée]par(?:ez|er)|pr[ée]p\.?|vorbereiten|preparare|preparate|prepara|preparar)(?!\p{L})[:.]?/giu;

/** What stands between spaces, commas, bars and the like. */
const splitNames = (text: string): readonly string[] =>
  text
    .replace(/(?<![\p{L}])(?:et|and|und)(?![\p{L}])/giu, ' ')
    .split(/[\s,;|/()[\]&+·–—-]+/u)
    .filter((part) => part !== '');

const NAME = /^(?:[A-Ha-h](?:[♭♮♯#bn]|[ei]s)?|[Ee]s|[Aa]s|(?:do|ut|r[ée]|mi|fa|sol|la|si)[♭♮♯#bn]?)[.:]?$/iu;

/** A name that tells its accidental beyond doubt. */
const MARKED_NAME = /^(?:[A-Ga-g][♭♮♯#]|[A-G]b|[A-H](?:is|es)|(?:do|ut|r[ée]|mi|fa|sol|la|si)[♭♮♯#])[.:]?$/u;

const BARE_CAPITAL = /^[A-H][.:]?$/u;

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

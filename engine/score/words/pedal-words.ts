import { type Foot, footOf, type Position } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import {
  findNames,
  isWordToo,
  NAMINGS,
  type NameReading,
  type Naming,
  readName,
  tellsAnotherName,
  type WrittenName,
  withoutNames,
} from './pedal-names.ts';

/** What words near the harp say of the pedals. */
export interface PedalWords {
  readonly positions: Partial<Record<Letter, Position>>;
  /** To be prepared ahead of need. */
  readonly ahead: boolean;
}

/** A name in a text and the pedal that it sets; indices of the text, `end` exclusive. */
export interface PedalName {
  readonly letter: Letter;
  readonly position: Position;
  readonly start: number;
  readonly end: number;
}

/** What each name of a text says, and in which naming. */
export interface ReadNames extends PedalWords {
  readonly names: readonly PedalName[];
  readonly naming: Naming;
}

/**
 * Reads words that are nothing but names of notes as positions of pedals: English, German or fixed-do, with real,
 * SMuFL or ASCII accidentals or their names, in one naming throughout; a word such as “préparez” may lead or follow.
 *
 * Words that only say that pedals are meant (“Ped.”, “set”) may stand with them, and the sides of the player (“LH: C♯
 * RH: F”) where each names the pedals of its own foot. An arrow leads from where a pedal stands to where it goes; the
 * number of an octave says nothing of it. A lone bare letter is a rehearsal letter, and bare names mean naturals
 * only beside marked ones or where all seven pedals are named; two names joined by a stroke, one of them bare, are a
 * chord over a bass note or a stretch from one rehearsal letter to another (common practice, no source).
 *
 * @param usual how the part's other words call notes, where that is known: in German, bare names are naturals too
 * @returns null for any other text, a letter named twice, or names that two namings read differently
 * @example readPedalWords('préparez mi♭ fa♯') // { positions: { E: -1, F: 1 }, ahead: true }
 */
export const readPedalWords = (text: string, usual: Naming | null = null): PedalWords | null => {
  const read = readPedalNames(text, usual);
  return read === null ? null : { positions: read.positions, ahead: read.ahead };
};

/** The same with the place of each name in the text. */
export const readPedalNames = (text: string, usual: Naming | null = null): ReadNames | null => {
  if (text.length > LONGEST_TEXT || CHORD_OR_STRETCH.test(text.trim())) return null;
  const all = namesIn(text);
  if (all === null || FOOTNOTE.test(text.trim()) || tellsAnotherName(text)) return null;
  const names = withoutDepartures(text, all);
  const readings = NAMINGS.map((naming) => readIn(names, naming, usual)).filter((each) => each !== null);
  const preferred = readings.find(({ naming }) => naming === usual);
  const [first, ...others] = readings;
  const read =
    preferred ??
    (first !== undefined && others.every((other) => sameAs(first.positions, other.positions)) ? first : null);
  if (read === null || !isByFeet(text, read.names)) return null;
  return { ...read, ahead: asksToPrepare(text) };
};

/**
 * In which naming the words of a part are written: that of those which have a meaning in one naming only; null where
 * there is none, or there are several.
 */
export const usualNaming = (texts: Iterable<string>): Naming | null => {
  const found = new Set<Naming>();
  const lone = new Set<string>();
  for (const text of texts) {
    if (/^[A-H]$/u.test(text.trim())) lone.add(text.trim());
    const names = namesIn(text);
    if (names === null) continue;
    const namings = NAMINGS.filter((naming) => readIn(names, naming, null) !== null);
    if (namings.length === 1) found.add(namings[0]!);
  }
  return found.size === 1 && !areRehearsals(lone) ? [...found][0]! : null;
};

/** Letters from A on, three or more, or no others, are those of rehearsals. */
const areRehearsals = (lone: ReadonlySet<string>): boolean => {
  const run = 'ABCDEFGH'.split('').findIndex((letter) => !lone.has(letter));
  return lone.size > 0 && (run < 0 || run >= 3 || run === lone.size);
};

/**
 * Whether a text that cannot be read is meant to name pedals all the same, as “E♭ Fx A♮” is: two or more names with
 * accidentals, or one beside a word such as “Ped.”, and no more of other things than of names; one name with an
 * accidental and something stuck to it; or bare capitals alone, unless strokes join them.
 */
export const looksLikePedalWords = (text: string): boolean => {
  const trimmed = text.trim();
  if (text.length > LONGEST_TEXT || tellsAnotherName(text)) return false;
  if (CHORD_OR_STRETCH.test(trimmed) || JUMP_BACK.test(trimmed)) return false;
  if (STUCK_NAME.test(trimmed)) return true;
  const all = findNames(withoutSides(text));
  const others = otherWords(text, all);
  const marked = all.filter(isMarked).length;
  const isAsked = PEDAL_WORD.test(text) || AHEAD.test(text);
  if (
    all.length > 1 &&
    others.length === 0 &&
    all.every(({ stem, sign }) => sign === '' && /^[A-H]$/u.test(stem))
  )
    return !JOIN.test(text);
  if (others.length === 0 && marked > 0) return true;
  return marked >= (isAsked ? 1 : 2) && others.length <= all.length;
};

/** A name of a pedal in the middle of bare capitals at one moment: “D C B” over “E♭ F G A♭”. */
export const readBareNames = (text: string, usual: Naming | null): readonly PedalName[] | null => {
  const names = namesIn(text);
  if (names === null || !names.every(({ stem, sign }) => sign === '' && /^[A-H]$/u.test(stem))) return null;
  const read = toNames(names, usual === 'german' ? 'german' : 'english');
  return read;
};

/** Words to be quoted: on one line, and not many. */
export const quoteWords = (text: string): string => {
  const line = text.replace(/\s+/gu, ' ').trim();
  return line.length > LONGEST_QUOTE ? `${line.slice(0, LONGEST_QUOTE)}…` : line;
};

const LONGEST_QUOTE = 60;

/** Whether the text asks for a setting ahead of need, as “préparez” does. */
export const asksToPrepare = (text: string): boolean => AHEAD.test(text.slice(0, LONGEST_TEXT));

/** Seven names in words, with room to spare. */
const LONGEST_TEXT = 200;

/** Seven pedals, each with where it comes from. */
const MOST_NAMES = 14;

const AHEAD =
  /(?<!\p{L})(?:prepare|pr[ée]par(?:ez|er)|pr[ée]p\.?|vorbereiten|preparare|preparate|prepara|preparar)(?!\p{L})/iu;

/** Words that say no more than that pedals are meant. */
const PEDAL_WORD = /(?<!\p{L})(?:ped(?:als?|ale|ali|ales)?|p[ée]dales?)(?!\p{L})/iu;

/** Words that may stand beside names and change nothing: biddings, and the sides of the player. */
const SIDE_WORD = /(?<!\p{L})([LR])(?:\.?[HF]\.?:?|:)(?![\p{L}♭♮♯#])/gu;
const BIDDINGS =
  /(?<!\p{L})(?:to|set|now|change(?: to)?|move(?: to)?|back to|et|and|und|e|puis|then|dann|nach|setzen|mettre|mettez)(?!\p{L})/giu;

const SEPARATORS = /[\s,;|/()[\]&+·–—\-.:!>▸→⟶➝=]+/u;

/** What joins a chord and its bass note, or the ends of a stretch. */
const JOIN = /[/+&–—-]/u;

/** “D/E”, “B♭/D”, “A-D”: two names, at most one of them with an accidental. */
const CHORD_OR_STRETCH = /^[A-H](?:[♭♮♯#b]\s?[/+&–—-]\s?[A-H]|\s?[/+&–—-]\s?[A-H][♭♮♯#b]?)$/u;

/** “D.C.”, “D. S. al Coda” send the player back: D and C are no pedals there. */
const JUMP_BACK = /^D\.\s?[CS]\./u;

/** “E♭♭”, “F#x”, “ebb”: a name with an accidental, and something stuck to it that means nothing. */
const STUCK_NAME = /^[A-Ha-h](?:[♭♮♯#][^\s]{1,4}|b[♭♮♯#b])$/u;

/** “Fn.” is a footnote. */
const FOOTNOTE = /^[A-H]n[.:]$/u;

/** The names of a text that says nothing else; null for any other. */
const namesIn = (text: string): readonly WrittenName[] | null => {
  if (text.length > LONGEST_TEXT) return null;
  const names = findNames(withoutSides(text));
  const isNames = names.length > 0 && names.length <= MOST_NAMES && otherWords(text, names).length === 0;
  return isNames ? names : null;
};

/** What is left of a text besides names, biddings and what separates them. */
const otherWords = (text: string, names: readonly WrittenName[]): readonly string[] =>
  withoutNames(withoutSides(text), names)
    .replace(new RegExp(AHEAD, 'giu'), ' ')
    .replace(new RegExp(PEDAL_WORD, 'giu'), ' ')
    .replace(BIDDINGS, ' ')
    .split(SEPARATORS)
    .filter((part) => part !== '');

/** The words for the sides as blanks, so that what follows keeps its place. */
const withoutSides = (text: string): string =>
  splitSides(text).length > 0 ? text.replace(SIDE_WORD, (words) => ' '.repeat(words.length)) : text;

/** A name that tells its accidental beyond doubt. */
const isMarked = (name: WrittenName): boolean => {
  if (name.sign === '♭' || name.sign === '♮' || name.sign === '♯') return true;
  return (
    name.sign === 'b' || (name.stem.length === 3 && /^[A-H](?:is|es)$/u.test(name.stem)) || isWordToo(name)
  );
};

const ARROW = /^\s*(?:→|⟶|➝|[-–=]+>)\s*$/u;

/** “E♮→E♭” is one change: the names from which an arrow leads to the same letter say where the pedal stood. */
const withoutDepartures = (text: string, names: readonly WrittenName[]): readonly WrittenName[] =>
  names.filter((name, i) => {
    const next = names[i + 1];
    if (next === undefined || !ARROW.test(text.slice(name.end, next.start))) return true;
    return letterOf(name) !== letterOf(next);
  });

/** The letter that a name begins with, for comparing: H and B are one string. */
const letterOf = ({ stem }: WrittenName): string => {
  const syllable = stem.length > 1 && !/(?:is|es|s)$/iu.test(stem);
  return syllable ? stem.toLowerCase() : stem.slice(0, 1).toUpperCase().replace('H', 'B');
};

interface MarkedFoot {
  readonly foot: Foot;
  readonly from: number;
  readonly to: number;
}

/** The stretches of the text that words for the sides lead. One that stands alone and may mean a hand leads none. */
const splitSides = (text: string): readonly MarkedFoot[] => {
  const words = [...text.matchAll(SIDE_WORD)];
  const [first, second] = words;
  if (first === undefined || words.length > 2 || text.slice(0, first.index).trim() !== '') return [];
  if (second !== undefined && first[1] === second[1]) return [];
  if (second === undefined && /H/u.test(first[0])) return [];
  return words.map((word, i) => ({
    foot: word[1] === 'L' ? 'left' : 'right',
    from: word.index + word[0].length,
    to: words[i + 1]?.index ?? text.length,
  }));
};

/** Whether each side names pedals of its foot alone: other names after the words for the sides are notes for hands. */
const isByFeet = (text: string, names: readonly PedalName[]): boolean =>
  splitSides(text).every(({ foot, from, to }) =>
    names.every(({ letter, start }) => start < from || start >= to || footOf(letter) === foot),
  );

/** What all names say in one naming, or null where one has no meaning in it. */
const readIn = (
  names: readonly WrittenName[],
  naming: Naming,
  usual: Naming | null,
): Pick<ReadNames, 'positions' | 'names' | 'naming'> | null => {
  const readings = names.map((name) => readName(name, naming));
  if (!readings.every((each) => each !== null)) return null;
  const [only] = names;
  if (names.length === 1 && !isNameAlone(only!, readings[0]!, naming, usual)) return null;
  const marked = readings.filter((reading) => reading.marked).length;
  const isGerman = naming === 'german' && usual === 'german';
  if (marked === 0 && names.length < LETTERS.length && !isGerman) return null;
  const read = toNames(names, naming);
  return read && { names: read, naming, positions: positionsOf(read) };
};

const toNames = (names: readonly WrittenName[], naming: Naming): readonly PedalName[] | null => {
  const seen = new Set<Letter>();
  const read: PedalName[] = [];
  for (const name of names) {
    const reading = readName(name, naming);
    if (reading === null || seen.has(reading.letter)) return null;
    seen.add(reading.letter);
    read.push({ letter: reading.letter, position: reading.position, start: name.start, end: name.end });
  }
  return read;
};

const positionsOf = (names: readonly PedalName[]): PedalWords['positions'] =>
  Object.fromEntries(names.map(({ letter, position }) => [letter, position]));

/** “An”, “En” are words, “Bn” is a bassoon, and “ab”, “des” are words too: names of one pedal only beside others. */
const isNameAlone = (
  name: WrittenName,
  { letter }: NameReading,
  naming: Naming,
  usual: Naming | null,
): boolean => {
  if (isWordToo(name)) return naming === usual;
  return name.sign !== 'n' || (naming === 'english' && /^[CDFG]$/u.test(letter));
};

const sameAs = (
  one: Partial<Record<Letter, Position>>,
  other: Partial<Record<Letter, Position>>,
): boolean => {
  const letters = Object.keys({ ...one, ...other }) as Letter[];
  return letters.every((letter) => one[letter] === other[letter]);
};

import { type OpenTuning, tuneToKey } from '../../harp/open-tuning.ts';
import { readTuning } from '../../harp/read-tuning.ts';
import { isPosition } from '../../harp/setting.ts';
import { readAccidental } from '../../music/accidental.ts';
import { isLetter, LETTERS_BY_FIFTHS, type Letter } from '../../music/pitch.ts';
import type { OneTime } from '../bars/one-time.ts';
import { findNames, NAMINGS, type Naming, readName, type WrittenName, withoutNames } from './pedal-names.ts';
import { looksLikePedalWords } from './pedal-words.ts';
import { takeTime } from './time-words.ts';

/** What a text says of one lever, or of all levers of a letter; indices of the text, `end` exclusive. */
export interface LeverName {
  readonly letter: Letter;
  /** Null where none is named. */
  readonly octave: number | null;
  /** What the string is to give, in semitones above the natural of its letter; null where only the lever is named. */
  readonly alter: number | null;
  /** Where the lever is to stand; null where only the note is named. */
  readonly lever: 'up' | 'down' | null;
  /** All strings of the letter are meant (“all B♭”). */
  readonly isWhole: boolean;
  readonly start: number;
  readonly end: number;
}

/** What words near a lever harp say of its levers. */
export interface LeverWords {
  /** How the open strings are tuned; null where the text does not say. */
  readonly tuning: OpenTuning | null;
  /** A table says how levers stand; else the names are changes. */
  readonly isTable: boolean;
  /** Levers that are not named are down. */
  readonly othersDown: boolean;
  readonly names: readonly LeverName[];
  readonly naming: Naming;
  /** The one time of playing that they are for, as “1st time” says; null where for each. */
  readonly time: OneTime | null;
}

const LONGEST_TEXT = 600;

/** The sign is told from a name of the note by its case: these are words, in any. */
const word = (pattern: string): RegExp => new RegExp(`(?<!\\p{L})(?:${pattern})(?!\\p{L})`, 'giu');

const ALL_DOWN = word(
  'all (?:the )?(?:other )?levers (?:are )?(?:down|off|open)|(?:all )?others (?:are )?down|alle (?:anderen |übrigen )?(?:klappen|hebel) (?:unten|offen)|tous les (?:autres )?leviers (?:en bas|baissés)|les autres en bas|tutte le (?:altre )?levette (?:giù|abbassate)|todas las (?:demás )?palancas bajadas',
);
const LEVERS = word(
  '(?:sharping )?levers?(?: (?:settings?|table))?|levers? set|(?:halbton)?klappen?|hebel|leviers?|palettes?|levett[ae]|palancas?',
);
const UP = word(
  'up|raised?|engaged?|on|hoch|rauf|hinauf|auf|oben|umlegen|umgelegt|en haut|haut|levée?s?|levez|relever|relevez|montez|monter|su|alzat[ae]|subidas?',
);
const DOWN = word(
  'down|lower(?:ed)?|disengaged?|released?|off|runter|herunter|hinunter|unten|lösen|en bas|bas|baissée?s?|baisser|baissez|abaisser|abaissez|descendez|descendre|giù|abbassat[ae]|bajadas?',
);
/** In French the verb, before the name of a note. */
const LEVER_NOTE = /(?<!\p{L})lever(?=\s+(?:le\s+)?(?:do|ut|r[eé]|mi|fa|sol|la|si)(?!\p{L}))/giu;
const ALL = word('all|every|alle|tous les|toutes les|tous|toutes|tutti i|todos los');
const OTHER_WORDS = word(
  '(?:with )?(?:the )?(?:left|right) hand|l\\.?h\\.?|r\\.?h\\.?|m\\.?g\\.?|m\\.?d\\.?|to|the|set|now|change|back|and|then|und|dann|et|puis|le|les|die|den|nach|setzen|mettre|mettez|before the start|at the start',
);
const SEPARATORS = /[\s,;:|/()[\]&+·.!–—→-]+/u;

/**
 * Reads words as what they say of levers: a table of settings, with the tuning or without, or changes by name.
 *
 * A name is a note (“F♯4”, “Fis”, “fa♯”), or a letter with a word for where its lever goes (“F4 up”, “lever F up”,
 * “raise F”, “Klappe F hoch”, “baisser si”). A word that leads its names holds for all that follow it, one behind them
 * for those before it. English, German and French, and the tables of Italian and Spanish (common practice, no source).
 *
 * @param usual how the part's other words call notes, where that is known
 * @returns null for any other text
 * @example readLeverWords('Levers up: F♯4, all B♮')
 */
export const readLeverWords = (text: string, usual: Naming | null = null): LeverWords | null => {
  if (text.length > LONGEST_TEXT) return null;
  const { time, rest: timeless } = takeTime(text);
  const { tuning, rest } = takeTuning(timeless);
  const othersDown = rest.search(ALL_DOWN) >= 0;
  const body = blank(rest, ALL_DOWN);
  const namings = [usual, ...NAMINGS].filter((each) => each !== null);
  for (const naming of namings) {
    const read = readNamesIn(body, naming);
    if (read === null) continue;
    const isTable = othersDown || tuning !== null || read.isTable;
    if (read.names.length === 0 && !othersDown && tuning === null) return null;
    return {
      tuning,
      isTable,
      othersDown: othersDown || (read.isTable && read.names.length > 0 && read.names.every(isUp)),
      names: read.names,
      naming,
      time,
    };
  }
  return null;
};

/** A row of a table without a word for levers: notes alone, all strings of each letter, a bare one for its natural. */
export const readLeverRow = (text: string, usual: Naming | null): LeverWords | null => {
  if (text.length > LONGEST_TEXT) return null;
  for (const naming of usual === null ? NAMINGS : [usual]) {
    const names = readNamesIn(text, naming, 'natural')?.names;
    if (names === undefined || names.length === 0) continue;
    if (names.some(({ lever }) => lever !== null)) return null;
    return { tuning: null, isTable: true, othersDown: false, names, naming, time: null };
  }
  return null;
};

/** Whether a text that cannot be read is meant to tell of levers all the same. */
export const looksLikeLeverWords = (text: string): boolean => {
  if (text.length > LONGEST_TEXT || readLeverWords(text) !== null) return false;
  const named = blank(text, LEVERS) !== text && text.split(/\s+/u).length <= MOST_WORDS;
  return named || looksLikePedalWords(text);
};

/** Whether a text that was read says by a word for levers how they stand: a part with such words is for a lever harp. */
export const tellsOfLevers = (text: string, says: LeverWords | null): boolean =>
  says?.isTable === true && blank(text, LEVERS) !== text;

/** A longer text that speaks of levers is a note for the reader. */
const MOST_WORDS = 12;

const isUp = ({ lever }: LeverName): boolean => lever === 'up';

const blank = (text: string, words: RegExp): string =>
  text.replace(words, (found) => ' '.repeat(found.length));

interface Direction {
  readonly at: number;
  readonly lever: 'up' | 'down';
}

/** A string tuned sharp gives it with its lever up. */
const DOUBLE_SHARP = /([A-G])𝄪([1-8]?)/gu;

const readNamesIn = (
  body: string,
  naming: Naming,
  bare: 'unread' | 'natural' = 'unread',
): { readonly names: readonly LeverName[]; readonly isTable: boolean } | null => {
  const directions: Direction[] = [
    ...(naming === 'fixed-do' ? [...body.matchAll(LEVER_NOTE)] : []).map(({ index }) => ({
      at: index,
      lever: 'up' as const,
    })),
    ...[...body.matchAll(UP)].map(({ index }) => ({ at: index, lever: 'up' as const })),
    ...[...body.matchAll(DOWN)].map(({ index }) => ({ at: index, lever: 'down' as const })),
  ].sort((a, b) => a.at - b.at);
  const undirected = [...(naming === 'fixed-do' ? [LEVER_NOTE] : []), UP, DOWN].reduce(blank, body);
  const isOfLevers = blank(undirected, LEVERS) !== undirected;
  const alls = [...undirected.matchAll(ALL)].map(({ index, 0: found }) => index + found.length);
  const plain = [LEVERS, ALL, OTHER_WORDS].reduce(blank, undirected);
  const doubles = new Set([...plain.matchAll(DOUBLE_SHARP)].map(({ index }) => index));
  const simple = plain.replace(DOUBLE_SHARP, '$1♯$2 ');
  const written = findNames(simple);
  const left = withoutNames(simple, written).split(SEPARATORS);
  if (left.some((part) => part !== '')) return null;
  const leads = directions.length > 0 && (written[0] === undefined || directions[0]!.at < written[0].start);
  // “Levers: E A” are those that are up; a lone “E” is a letter for rehearsals.
  const isTable = isOfLevers && (directions.length === 0 || leads) && /[:,]|levers/iu.test(body);
  const names: LeverName[] = [];
  for (const name of written) {
    const directed = leads
      ? directions.findLast(({ at }) => at < name.start)
      : directions.find(({ at }) => at > name.start);
    const isWhole = alls.some((end) => end <= name.start && plain.slice(end, name.start).trim() === '');
    const read = readLeverName(name, simple, naming, directed?.lever ?? null, isTable, isWhole, bare);
    if (read === null) return null;
    // A double sharp takes two places of the text.
    if (!doubles.has(name.start)) names.push(read);
    else names.push({ ...read, alter: 2, end: read.end + 1 });
  }
  return { names, isTable };
};

const readLeverName = (
  name: WrittenName,
  text: string,
  naming: Naming,
  told: LeverName['lever'],
  isTable: boolean,
  isWhole: boolean,
  bare: 'unread' | 'natural',
): LeverName | null => {
  const read = readName(name, naming);
  if (read === null) return null;
  const digit = /[1-8]/u.exec(text.slice(name.start, name.end));
  const lever = told ?? (isTable && !read.marked ? 'up' : null);
  // A bare letter is one for rehearsals unless a word tells that a lever is meant, or the row that it stands in.
  if (!read.marked && lever === null && bare === 'unread') return null;
  const { start, end } = name;
  const octave = digit === null ? null : Number(digit[0]);
  const alter = read.marked || lever === null ? read.position : null;
  return { letter: read.letter, octave, alter, lever, isWhole, start, end };
};

const SIGN = '[♭♯b#]?';
const ENGLISH_KEY = new RegExp(
  `(?<!\\p{L})tun(?:ing|ed(?: to| in)?|e to)\\s*:?\\s*([A-G]${SIGN}\\s+(?:major|minor))`,
  'iu',
);
const LETTERS_KEY = new RegExp(
  `(?<!\\p{L})tun(?:ing|ed(?: to)?)\\s*:?\\s*((?:[A-G]${SIGN}\\s+){6}[A-G]${SIGN})(?![\\p{L}\\d])`,
  'iu',
);
const APART = new RegExp(`^\\s*,\\s*([A-G])(${SIGN})([1-8])`, 'u');
const GERMAN_KEY = /(?<!\p{L})(?:stimmung|gestimmt in)\s*:?\s*([A-H](?:is|es|s)?)[- ]?(dur|moll)(?!\p{L})/iu;
const FIXED_DO_KEY =
  /(?<!\p{L})(?:accord(?:ée?|age)?(?: en)?|accordatura|afinación)\s*:?\s*((?:do|ut|r[eé]|mi|fa|sol|la|si)\s?(?:[♭♯b#]|bémol|dièse)?)\s*(majeur|mineur|maggiore|minore|mayor|menor)(?!\p{L})/iu;

/** The tuning that a text states, and the text with blanks for it. */
const takeTuning = (text: string): { readonly tuning: OpenTuning | null; readonly rest: string } => {
  for (const [pattern, read] of [
    [ENGLISH_KEY, (found) => readKey(found[1]!)],
    [LETTERS_KEY, (found) => readKey(found[1]!)],
    [GERMAN_KEY, (found) => keyOf(found[1]!, 'german', /^moll$/iu.test(found[2]!))],
    [FIXED_DO_KEY, (found) => keyOf(found[1]!, 'fixed-do', /^m[ie]n/iu.test(found[2]!))],
  ] as const satisfies readonly (readonly [RegExp, (found: RegExpExecArray) => OpenTuning | null])[]) {
    const found = pattern.exec(text);
    const tuning = found === null ? null : read(found);
    if (found === null || tuning === null) continue;
    let end = found.index + found[0].length;
    const exceptions: OpenTuning['exceptions'][number][] = [];
    for (let more = APART.exec(text.slice(end)); more !== null; more = APART.exec(text.slice(end))) {
      const alter = readAccidental(more[2]!) ?? 0;
      if (!isLetter(more[1]!) || !isPosition(alter)) break;
      exceptions.push({ string: { letter: more[1], octave: Number(more[3]) }, alter });
      end += more[0].length;
    }
    const blanks = ' '.repeat(end - found.index);
    return { tuning: { ...tuning, exceptions }, rest: text.slice(0, found.index) + blanks + text.slice(end) };
  }
  return { tuning: null, rest: text };
};

const readKey = (text: string): OpenTuning | null => {
  const read = readTuning(text);
  return read.ok ? read.value : null;
};

/** The tuning of a key by the name of its tonic in another naming. */
const keyOf = (tonic: string, naming: Naming, isMinor: boolean): OpenTuning | null => {
  const [name] = findNames(tonic);
  const read = name === undefined ? null : readName(name, naming);
  if (read === null) return null;
  const fifths = LETTERS_BY_FIFTHS.indexOf(read.letter) - 1 + 7 * read.position - (isMinor ? 3 : 0);
  return Math.abs(fifths) > 7 ? null : tuneToKey(fifths);
};

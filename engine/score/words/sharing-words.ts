import type { SharingMark } from '../model/texts.ts';
import { foldLabel, LONGEST_LABEL } from './labels.ts';

/** What words say of the players who share a part. */
export type SharingWords = Pick<SharingMark, 'kind' | 'players'>;

/** As many harps as any score asks for at once, and more. */
const MOST_PLAYERS = 12;

const NUMERALS: readonly string[] = ['i', 'ii', 'iii', 'iv', 'v', 'vi'];

/** A number of a player, such as `1.`, `2nd` or `ii`. */
const NUMBER = '(?:[1-9]\\d?(?:st|nd|rd|th|er|re|e|o|a|º|°)?|i{1,3}|iv|vi?)';

const numberOf = (text: string): number => {
  const numeral = NUMERALS.indexOf(text);
  return numeral >= 0 ? numeral + 1 : Number(/^\d+/u.exec(text)?.[0] ?? 0);
};

/** Two or more numbers, parted by points, commas, signs or words: `1.2.`, `I. II.`, `1 & 2`, `I e II`. */
const LIST = new RegExp(
  `^${NUMBER}(?:(?:\\. ?|, ?| ?[+&/] ?| ?[-–] ?|\\.? (?:and|und|u|et|e|y|o)\\.? | )${NUMBER})+\\.?$`,
  'u',
);

/** The players of a list of numbers; `1-3` is all from 1 to 3. Null for numbers that are no players. */
const readList = (text: string): readonly number[] | null => {
  if (!LIST.test(text)) return null;
  const numbers = [...text.matchAll(new RegExp(`(?<![\\p{L}\\d])${NUMBER}(?![\\p{L}\\d])`, 'gu'))].map(
    ([each]) => numberOf(each),
  );
  const players =
    /^\S+ ?[-–] ?\S+$/u.test(text) && numbers.length === 2
      ? Array.from({ length: Math.max(0, numbers[1]! - numbers[0]! + 1) }, (_, i) => numbers[0]! + i)
      : numbers;
  const isRising = players.every((each, i) => i === 0 || each > players[i - 1]!);
  return isRising && players.length > 1 && players.at(-1)! <= MOST_PLAYERS ? players : null;
};

const upTo = (players: number): readonly number[] => Array.from({ length: players }, (_, i) => i + 1);

const COUNTS: readonly (readonly [RegExp, number])[] = [
  [/(?<!\p{L})(?:due|deux|zwei|zweit|two|dos)(?!\p{L})/u, 2],
  [/(?<!\p{L})(?:tre|trois|drei|dritt|three|tres)(?!\p{L})/u, 3],
  [/(?<!\p{L})(?:quattro|quatre|vier|viert|four|cuatro)(?!\p{L})/u, 4],
];

const countIn = (text: string): number | null => {
  const figures = /(?<!\d)([2-9])(?!\d)/u.exec(text);
  return figures === null ? (COUNTS.find(([word]) => word.test(text))?.[1] ?? null) : Number(figures[1]);
};

const COUNT =
  '(?:[2-9]|due|deux|zwei|zweit|two|dos|tre|trois|drei|dritt|three|tres|quattro|quatre|vier|viert|four|cuatro)';

/** “a 2”, “à 2”, “zu 2”, “a due”, “à deux”, “zu zweit”. */
const TOGETHER = new RegExp(`^(?:a|zu) ?${COUNT}\\.?$`, 'u');

const UNISON =
  /^(?:unis\.?|unison|unisono|unisoni|unisson|a l'unisson|tutti|tutte|tous|toutes|beide|both|alle)$/u;

/** “div.”, “divisi”, “div. a 2”, “geteilt”. */
const DIVIDED = new RegExp(
  `^(?:div\\.?|divisi|divise|divisees|divises|divided|geteilt|geth\\.)(?: ?(?:a|en|in) ?${COUNT}\\.?)?$`,
  'u',
);

const ONE = new RegExp(
  `^(?:${NUMBER}\\.?(?: (?:solo|sola|alone|allein|seule?|harps?|harfe|harpe|arpa))?|(?:solo|sola|one|une seule|una|eine))$`,
  'u',
);

/**
 * Reads words that say who of several players plays: “1.2.”, “I. II.” and “a 2” (together), “div.” (each their own
 * notes), “1.”, “II” or “solo” (one of them).
 *
 * Single numbers and “tutti” mean other things too: they count only where the part is known to be shared
 * (`confirmSharing`).
 *
 * @returns null for any other words
 */
export const readSharingWords = (text: string): SharingWords | null => {
  if (text.length > LONGEST_LABEL) return null;
  const words = foldLabel(text).replace(/^[([]|[)\]]$/gu, '');
  const list = readList(words);
  if (list !== null) return { kind: 'together', players: list };
  if (TOGETHER.test(words)) return { kind: 'together', players: upTo(countIn(words) ?? 2) };
  if (DIVIDED.test(words)) return { kind: 'divided', players: upTo(countIn(words) ?? 2) };
  if (UNISON.test(words)) return { kind: 'together', players: [] };
  if (!ONE.test(words)) return null;
  const number = numberOf(new RegExp(`^${NUMBER}`, 'u').exec(words)?.[0] ?? 'i');
  return number >= 1 && number <= MOST_PLAYERS ? { kind: 'one', players: [number] } : null;
};

/** “2 Harps”, “Two Harps”, “2 Harfen”. */
const COUNTED = new RegExp(
  `(?<![\\p{L}\\d])(${COUNT}) (?:harps|harfen|harpes|arpe|arpas|harpas|hp|hps|hrf|hfn)(?!\\p{L})`,
  'u',
);

const SEVERAL = /(?<!\p{L})(?:harps|harfen|harpes|arpe|arpas|harpas|hps)(?!\p{L})/u;

const HARP = /(?<!\p{L})(?:harps?|harfen?|harpes?|arp[ae]|arpas|harpas?|hps?|hrf|hfe?)\.?(?!\p{L})/u;

/**
 * How many players a part's name is for: “2 Harps” and “Harp I. II.” are for two, “Harps” for two at the least.
 *
 * @returns 1 where the name tells of no more
 */
export const playersInName = (name: string): number => {
  const folded = foldLabel(name);
  const counted = COUNTED.exec(folded)?.[1];
  if (counted !== undefined) return countIn(counted) ?? 1;
  const list = readList(folded.replace(HARP, ' ').replace(/[()]/gu, ' ').trim());
  if (list !== null) return list.length;
  const isNumbered = new RegExp(`(?<![\\p{L}\\d])${NUMBER}(?![\\p{L}\\d])`, 'u').test(folded);
  return SEVERAL.test(folded) && !isNumbered ? 2 : 1;
};

/**
 * Keeps what is sure of marks about players: where neither the part's name nor another mark tells of several, “1.”,
 * “solo” and “tutti” are no such marks.
 *
 * @returns the players of the part, at least 1, and the marks that count
 */
export const confirmSharing = (
  name: string,
  marks: readonly SharingMark[],
): { readonly players: number; readonly marks: readonly SharingMark[] } => {
  const sure = marks.filter(({ kind, players }) => kind !== 'one' && players.length > 1);
  const told = sure.map(({ players }) => players.at(-1)!);
  const players = Math.max(playersInName(name), ...told);
  return { players, marks: players > 1 ? marks : [] };
};

/** For the user: a sentence without its full stop. */
export const sharedPartRemark = (players: number): string => `The part is written for ${players} players`;

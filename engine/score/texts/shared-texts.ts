import { compare, type Rational, rationalKey } from '../../music/rational.ts';
import type { Score } from '../model/score.ts';
import type { ScoreText } from '../model/texts.ts';
import { isFormName } from './form-names.ts';
import { type BarBounds, findMovements } from './movements.ts';
import { askToGoOn, isFine, kindOfWords } from './tempo-words.ts';

/** Something printed in one part of the score, before it is known whom it concerns. */
export interface PrintedText {
  readonly at: Rational;
  readonly bar: number;
  /** Order of its part in the score, from 0 at the top. */
  readonly part: number;
  /** `attacca`: an order to go on without a pause, in whatever words. */
  readonly sign: 'words' | 'rehearsal' | 'segno' | 'coda' | 'attacca';
  readonly text: string;
  /** The file itself says that it holds for all: as a mark of the whole system, a tempo, a metronome mark. */
  readonly forAll: boolean;
  readonly place: 'above' | 'below' | null;
  /** As the file says; null where it says nothing. */
  readonly bold: boolean | null;
  /** Larger than words usually are, as titles are. */
  readonly large: boolean;
  readonly atBarStart: boolean;
}

/**
 * What of the printed text concerns every player, each once in a bar:
 *
 * - rehearsal marks, signs of return, titles of movements, names of forms that head a section, and what the file states for all;
 * - words of tempo, gradual ones too, and orders to all, over the top staff of the score, or in two parts at once;
 * - words of character where they are such a tempo's: stated for all, beside a tempo of the same part, as in two languages, or
 *   in three parts or more at once over the staff.
 *
 * Everything else is left to the part that has it: expression, technique, names of players.
 *
 * @param movements bars at which a movement begins, the first included
 */
const chooseSharedTexts = (
  printed: readonly PrintedText[],
  movements: ReadonlySet<number>,
): readonly ScoreText[] => {
  const together = countParts(printed);
  const sure = printed.map((text) => kindOf(text, movements, together.get(keyOf(text))!));
  const tempi = new Set(printed.filter((_, i) => sure[i] === 'tempo' || sure[i] === 'gradual').map(momentOf));
  const found = printed.flatMap((text, i): ScoreText[] => {
    const kind = sure[i] ?? (tempi.has(momentOf(text)) && isCharacter(text) ? 'tempo' : null);
    if (kind === null) return [];
    const bold = text.bold ?? (kind !== 'gradual' && kind !== 'order');
    return [{ at: text.at, bar: text.bar, kind, text: withoutOpenBracket(text.text), bold }];
  });
  const seen = new Set<string>();
  return found
    .toSorted((a, b) => compare(a.at, b.at) || ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind))
    .filter(({ bar, kind, text }) => {
      const key = `${bar} ${kind === 'rehearsal'} ${plainText(text)}`;
      return !seen.has(key) && seen.add(key);
    });
};

/** A bracket may be opened for a figure that the file lacks. */
const withoutOpenBracket = (text: string): string => {
  const trimmed = text.trimEnd();
  return /\p{L}/u.test(trimmed) && /[([]$/.test(trimmed) ? trimmed.slice(0, -1).trimEnd() : text;
};

/** The texts for every player and the movements, of all that the parts of a score print. */
export const readSharedTexts = (
  printed: readonly PrintedText[],
  bars: readonly BarBounds[],
): Pick<Score, 'texts' | 'movements' | 'pauses'> => {
  const movements = findMovements(bars, findHeadedBars(printed));
  const later = movements.filter((bar) => bar > 0);
  const texts = chooseSharedTexts(printed, new Set(movements));
  const orders = [
    ...texts.filter(({ text }) => askToGoOn(text)),
    ...printed.filter(({ sign }) => sign === 'attacca'),
  ];
  const goingOn = new Set(orders.map(({ bar }) => bar + 1));
  return {
    texts,
    movements: later,
    pauses: later.filter((bar) => bars[bar - 1]!.end === 'final' && !goingOn.has(bar)),
  };
};

/** Bars over which a title stands, or behind no “Fine” a tempo: what is played after that is no movement of its own. */
const findHeadedBars = (printed: readonly PrintedText[]): ReadonlySet<number> => {
  const afterFine = new Set(printed.filter(({ text }) => isFine(text)).map(({ bar }) => bar + 1));
  const heads = printed.filter(
    (text) => looksLikeTitle(text) || (isNewTempo(text) && !afterFine.has(text.bar)),
  );
  return new Set(heads.map(({ bar }) => bar));
};

const isNewTempo = ({ text, sign, forAll, atBarStart, place }: PrintedText): boolean =>
  sign === 'words' &&
  atBarStart &&
  place !== 'below' &&
  (forAll ? kindForAll(text) : kindOfWords(text)) === 'tempo';

/** What words are that the file itself says hold for all. */
const kindForAll = (text: string): 'tempo' | 'gradual' | 'order' => {
  const kind = kindOfWords(text);
  return kind === 'gradual' || kind === 'order' ? kind : 'tempo';
};

/** Of texts at one moment, the one that is to stand highest comes first. */
const ORDER: readonly ScoreText['kind'][] = [
  'movement',
  'rehearsal',
  'segno',
  'coda',
  'tempo',
  'gradual',
  'order',
];

/** For comparing: letters, figures and music signs alone. */
const plainText = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}\p{Co}]/gu, '');

const momentOf = ({ at, part }: PrintedText): string => `${rationalKey(at)} ${part}`;

const isCharacter = ({ sign, text, place }: PrintedText): boolean =>
  sign === 'words' && place !== 'below' && kindOfWords(text) === 'character';

const keyOf = ({ at, text }: PrintedText): string => `${rationalKey(at)} ${plainText(text)}`;

/** In how many parts the same words stand at the same moment. */
const countParts = (printed: readonly PrintedText[]): ReadonlyMap<string, number> => {
  const parts = new Map<string, Set<number>>();
  for (const text of printed) {
    const key = keyOf(text);
    parts.set(key, (parts.get(key) ?? new Set()).add(text.part));
  }
  return new Map([...parts].map(([key, each]) => [key, each.size]));
};

const kindOf = (
  text: PrintedText,
  movements: ReadonlySet<number>,
  parts: number,
): ScoreText['kind'] | null => {
  if (text.sign === 'attacca') return 'order';
  if (text.sign !== 'words') return text.sign;
  if (plainText(text.text) === '') return null;
  const isOnTop = text.part === 0 && text.place !== 'below';
  if (movements.has(text.bar) && looksLikeTitle(text)) return 'movement';
  if ((isOnTop || parts >= 2) && isFormName(text.text)) return 'tempo';
  if (text.forAll) return kindForAll(text.text);
  const kind = kindOfWords(text.text);
  if (kind === null) return null;
  if (kind === 'character') return parts >= 3 && text.place !== 'below' ? 'tempo' : null;
  return isOnTop || parts >= 2 ? kind : null;
};

/** “II. Andante”, “No. 3: Waltz”, “4) Finale”. */
const NUMBERED = /^(?:(?:[IVX]{1,5}|\d{1,2})\s*[.:)–—-]|N[ro°º]\.?\s*\d{1,2}\s*[.:)–—-]?)\s*\p{Lu}/u;

/** Words that may be a movement's title: over a first note, with a number or in larger letters. */
const looksLikeTitle = ({ text, sign, bar, atBarStart, large, place }: PrintedText): boolean =>
  sign === 'words' &&
  atBarStart &&
  place !== 'below' &&
  /\p{L}{2}/u.test(text) &&
  (NUMBERED.test(text) || isFormName(text) || (large && bar > 0 && kindOfWords(text) === null));

import { formatChange, isPosition, type Position } from '../../../harp/setting.ts';
import { isLetter, type Letter } from '../../../music/pitch.ts';
import { childrenNamed, descendantsNamed, firstChild, type XmlElement } from '../../../xml/tree.ts';
import type { HandWords } from '../../model/note.ts';
import { readHandWords } from '../../words/hand-words.ts';
import { squeezeLabel } from '../../words/labels.ts';
import {
  type LeverWords,
  looksLikeLeverWords,
  readLeverWords,
  tellsOfLevers,
} from '../../words/lever-words.ts';
import type { Naming } from '../../words/pedal-names.ts';
import { asksToPrepare, looksLikePedalWords, quoteWords, readPedalWords } from '../../words/pedal-words.ts';
import { readSharingWords, type SharingWords } from '../../words/sharing-words.ts';
import type { RawMarking } from '../raw-part.ts';
import type { RemarkList } from '../remark-list.ts';
import { readNumber } from '../values.ts';

/** What a direction at the harp's staves says of the pedals, of stilling strings, of hands and of players. */
export interface HarpDirection {
  readonly marking: Pick<RawMarking, 'form' | 'positions' | 'ahead' | 'text'> | null;
  /** Words that seem to name pedals and are not understood; null where there are none. */
  readonly unread: string | null;
  /** What the words tell of levers, null within where they seem to and are not understood; null where they do not. */
  readonly levers: { readonly text: string; readonly says: LeverWords | null } | null;
  readonly damp: 'damp' | 'damp-all' | null;
  readonly hand: HandWords | null;
  readonly sharing: (SharingWords & { readonly text: string }) | null;
}

const NOTHING_SAID: HarpDirection = {
  marking: null,
  unread: null,
  levers: null,
  damp: null,
  hand: null,
  sharing: null,
};

/** @param usual how the part's words call notes, where that is known */
export const readHarpDirection = (
  direction: XmlElement,
  bar: number,
  usual: Naming | null,
  remarks: RemarkList,
): HarpDirection => {
  const types = childrenNamed(direction, 'direction-type').flatMap((type) => type.children);
  const words = types.filter((each) => each.name === 'words' || each.name === 'symbol').map(wordsOf);
  const pedals = types.find((each) => each.name === 'harp-pedals');
  const isDamp = (name: string): boolean => types.some((each) => each.name === name);
  const damp = isDamp('damp-all') ? 'damp-all' : isDamp('damp') ? 'damp' : null;
  // Dynamics, hairpins, pedal lines: most directions have no words.
  if (pedals === undefined && words.length === 0) return { ...NOTHING_SAID, damp };
  const text = pedals === undefined ? squeezeLabel(words.join(' ')) : '';
  const sharing = readSharingWords(text);
  return {
    ...(pedals === undefined
      ? markingInWords(words, bar, usual, remarks)
      : { marking: readHarpPedals(pedals, words, bar, remarks), unread: null }),
    levers: leversInWords(words, usual),
    damp,
    hand: readHandWords(text),
    sharing: sharing && { ...sharing, text },
  };
};

const ACCIDENTAL_SYMBOLS: ReadonlyMap<string, string> = new Map([
  ['accidentalFlat', '♭'],
  ['accidentalNatural', '♮'],
  ['accidentalSharp', '♯'],
]);

/** The text of words; of a SMuFL symbol, the accidental it is. */
const wordsOf = (element: XmlElement): string =>
  element.name === 'words' ? element.text : (ACCIDENTAL_SYMBOLS.get(element.text.trim()) ?? '');

const readHarpPedals = (
  pedals: XmlElement,
  words: readonly string[],
  bar: number,
  remarks: RemarkList,
): HarpDirection['marking'] => {
  const positions: Partial<Record<Letter, Position>> = {};
  for (const tuning of descendantsNamed(pedals, 'pedal-tuning')) {
    const letter = firstChild(tuning, 'pedal-step')?.text.trim() ?? '';
    const element = firstChild(tuning, 'pedal-alter');
    const alter = element === undefined ? 0 : readNumber(element, 'pedal position', -9, 9);
    if (isLetter(letter) && isPosition(alter)) positions[letter] = alter;
    else
      remarks.skip(
        `A pedal marking asks for “${letter.slice(0, 10)}” altered by ${alter}, which no pedal gives`,
        bar,
      );
  }
  const stated = Object.entries(positions) as [Letter, Position][];
  if (stated.length === 0) return null;
  const text = stated.map(([letter, position]) => formatChange(letter, position)).join(' ');
  return { form: 'harp-pedals', positions, ahead: asksToPrepare(words.join(' ')), text };
};

/** Names may be split over several elements, as where the accidentals have a font of their own. */
const markingInWords = (
  words: readonly string[],
  bar: number,
  usual: Naming | null,
  remarks: RemarkList,
): Pick<HarpDirection, 'marking' | 'unread'> => {
  const whole = wholeTextsOf(words);
  for (const text of new Set([...whole, ...words])) {
    const read = readPedalWords(text, usual);
    if (read === null) continue;
    if (!whole.includes(text) && looksLikePedalWords(whole.at(-1)!))
      remarks.skip(
        `Only some of these words, which seem to name pedals, are understood: “${quoteWords(whole.at(-1)!)}”`,
        bar,
      );
    return { marking: { form: 'words', ...read, text: squeezeLabel(text) }, unread: null };
  }
  const isUnread =
    whole.some(looksLikePedalWords) &&
    !whole.some((text) => tellsOfLevers(text, readLeverWords(text, usual)));
  return { marking: null, unread: isUnread ? squeezeLabel(whole.at(-1)!) : null };
};

/** Words as one text, joined and apart; one text where there is nothing to join. */
const wholeTextsOf = (words: readonly string[]): readonly string[] =>
  words.length === 1 ? words : [words.join(''), words.join(' ')];

/** Names may be split over several elements here too. */
const leversInWords = (words: readonly string[], usual: Naming | null): HarpDirection['levers'] => {
  const whole = wholeTextsOf(words);
  for (const text of whole) {
    const says = readLeverWords(text, usual);
    if (says !== null) return { text: squeezeLabel(text), says };
  }
  return whole.some(looksLikeLeverWords) ? { text: squeezeLabel(whole.at(-1)!), says: null } : null;
};

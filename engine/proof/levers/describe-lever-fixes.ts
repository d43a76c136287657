import type { TextPlace } from '../../findings/catalogue/entry.ts';
import { rationalKey } from '../../music/rational.ts';
import type { NonEmpty } from '../../non-empty.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Score } from '../../score/model/score.ts';
import { quoteWords } from '../../score/words/pedal-words.ts';
import { listNames } from '../../words/lists.ts';
import {
  ENGLISH_FIX_NAMES,
  ENGLISH_FIXES,
  type FixSentences,
  type FixWords,
  joinClauses,
  textPlace,
} from '../describe-fixes.ts';
import type { FixPlace } from '../model.ts';
import type { LeverFix } from './model.ts';

/** What fixes of levers say; `text` is a text of the file with its place. */
export interface LeverFixSentences extends Pick<FixSentences, 'place' | 'add' | 'and'> {
  readonly list: (names: readonly string[]) => string;
  readonly words: (text: string, place: string) => string;
  readonly smallNote: (text: string, place: string) => string;
  readonly print: (names: string, text: string) => string;
  readonly printInstead: (names: string, instead: string, text: string) => string;
  readonly move: (names: string, text: string, to: string) => string;
  readonly remove: (names: string, text: string) => string;
}

/** The engine’s own words. */
export const ENGLISH_LEVER_FIXES = {
  ...ENGLISH_FIXES,
  list: listNames,
  words: (text, place) => `“${text}” at ${place}`,
  smallNote: (text, place) => `the small note ${text} at ${place}`,
  print: (names, text) => `print ${names} in ${text}`,
  printInstead: (names, instead, text) => `print ${names} instead of ${instead} in ${text}`,
  move: (names, text, to) => `move ${names} from ${text} to ${to}`,
  remove: (names, text) => `take ${names} out of ${text}`,
} as const satisfies LeverFixSentences;

const ENGLISH: FixWords<LeverFixSentences> = { names: ENGLISH_FIX_NAMES, sentences: ENGLISH_LEVER_FIXES };

/** Changes to be made together as one sentence; empty for none. */
export const describeLeverFixes = (
  score: Score,
  fixes: readonly LeverFix[],
  words: FixWords<LeverFixSentences> = ENGLISH,
): string => {
  const groups = new Map<string, [LeverFix, ...LeverFix[]]>();
  for (const fix of fixes) {
    const key = keyOf(fix);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [fix]);
    else known.push(fix);
  }
  return joinClauses(
    [...groups.values()].map((together) => describeTogether(score, together, words)),
    words.sentences,
  );
};

const keyOf = (fix: LeverFix): string => {
  const at = 'at' in fix ? rationalKey(fix.at) : '';
  const marking = 'marking' in fix ? fix.marking : '';
  const string =
    fix.kind === 'alter' || fix.kind === 'rename' ? `${fix.string.letter}${fix.string.octave}` : '';
  return `${fix.kind} ${marking} ${at} ${string}`;
};

const describeTogether = (
  score: Score,
  fixes: NonEmpty<LeverFix>,
  { names, sentences }: FixWords<LeverFixSentences>,
): string => {
  const [fix] = fixes;
  const list = sentences.list(
    fixes.map((each) => {
      if (!('alter' in each)) return names.string(each.string);
      return names.lever({ string: each.kind === 'rename' ? each.to : each.string, alter: each.alter });
    }),
  );
  const here = (place: FixPlace): string => {
    const { bar, beat } = textPlace(score, place);
    return sentences.place(bar, beat);
  };
  const text = (marking: number): string => nameText(score, marking, sentences);
  switch (fix.kind) {
    case 'add':
      return sentences.add(list, here(fix));
    case 'alter':
      return sentences.print(list, text(fix.marking));
    case 'rename':
      return sentences.printInstead(list, names.string(fix.string), text(fix.marking));
    case 'move':
      return sentences.move(list, text(fix.marking), here(fix));
    case 'remove':
      return sentences.remove(list, text(fix.marking));
  }
};

const nameText = (score: Score, marking: number, { place, smallNote, words }: LeverFixSentences): string => {
  const { form, text } = score.leverWords[marking]!;
  const { bar, beat } = placeOfLeverWords(score, marking);
  return form === 'note' ? smallNote(text, place(bar, beat)) : words(quoteWords(text), place(bar, beat));
};

export const placeOfLeverWords = (score: Score, marking: number): TextPlace => {
  const { bar, at } = score.leverWords[marking]!;
  return textPlace(score, { bar, at, beat: beatAt(score.bars[bar]!, at) });
};

import {
  type HarpPlan,
  LETTERS_FROM_C,
  listRetunedStrings,
  nameOfPosition,
  type OpenTuning,
  type RetunedLetter,
} from '../../engine/index.ts';
import { tonicOf } from '../levers/lever-words.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameInWords, namePitch } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';

/** What is to be tuned before the piece, and whether that takes a string above its usual pitch. */
export interface ToldTuning {
  /** Sentences; empty where nothing is. */
  readonly sentences: readonly string[];
  readonly raises: boolean;
}

/** What the player of either harp tunes before the piece. */
export const tellTuning = (harp: HarpPlan, naming: NoteNaming, words: Words): ToldTuning => {
  if (harp.kind === 'lever') {
    const retuned = listRetunedStrings(harp.profile.tuning, harp.plan.tuning, harp.profile);
    return {
      sentences: retuned.map((each) => tellRetuned(each, naming, words)),
      raises: retuned.some(({ from, to }) => to > from),
    };
  }
  const { tunings, retuned } = harp.plan;
  return {
    sentences: [
      ...tunings.map(({ string, alter }) =>
        words.tuning.withoutDisc(
          namePitch({ ...string, alter: 0 }, naming),
          // In words: where naturals have no sign, “D1 to D” would say nothing.
          `${nameInWords(string.letter, 0, naming)} ${words.notes.positions[nameOfPosition(alter)]}`,
        ),
      ),
      ...retuned.map(
        ({ string, cents }) => `${words.tuning.retuned(namePitch({ ...string, alter: 0 }, naming), cents)}.`,
      ),
    ],
    // Which way a string without a disc is turned depends on how its player keeps it.
    raises: tunings.length > 0 || retuned.some(({ cents }) => cents > 0),
  };
};

/** The same for a sheet: what is tuned with the caution that belongs to it, or that nothing is. */
export const tellToTune = (harp: HarpPlan, naming: NoteNaming, words: Words): readonly string[] => {
  const { sentences, raises } = tellTuning(harp, naming, words);
  if (sentences.length === 0) return [words.tuning.nothing];
  return [...sentences, ...(raises ? [words.tuning.caution] : [])];
};

/** Strings to retune, in a sentence. */
export const tellRetuned = (
  { letter, strings, from, to }: RetunedLetter,
  naming: NoteNaming,
  { tuning }: Words,
): string => {
  const [before, after] = [from, to].map((alter) => nameInWords(letter, printedAlter(alter), naming));
  const way = to > from ? 'up' : 'down';
  return strings === null
    ? tuning.retunedLetter(before!, after!, way)
    : tuning.retunedStrings(
        before!,
        strings.map(({ octave }) => `${octave}`),
        after!,
        way,
      );
};

/** How the open strings of a lever harp are tuned: by its key, or else its seven letters; single strings after them. */
export const nameTuning = (tuning: OpenTuning, naming: NoteNaming, { notes }: Words): string => {
  const tonic = tonicOf({ ...tuning, exceptions: [] });
  const letters = LETTERS_FROM_C.map((letter) => nameInWords(letter, tuning.letters[letter], naming));
  return [
    tonic === null ? letters.join(' ') : notes.major(nameInWords(tonic.letter, tonic.alter, naming)),
    ...tuning.exceptions.map(({ string, alter }) => namePitch({ ...string, alter }, naming)),
  ].join(', ');
};

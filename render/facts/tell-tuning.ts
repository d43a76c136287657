import {
  accidentalSign,
  describeStringRetuning,
  type HarpPlan,
  nameString,
  tuningName,
} from '../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameInWords } from '../sheets/note-words.ts';
import { listRetunedStrings, type RetunedLetter } from './retuned-strings.ts';
import { TUNING_WORDS as WORDS } from './tuning-words.ts';

/** What is to be tuned before the piece, and whether that takes a string above its usual pitch. */
export interface ToldTuning {
  /** Sentences; empty where nothing is. */
  readonly sentences: readonly string[];
  readonly raises: boolean;
}

/** What the player of either harp tunes before the piece. */
export const tellTuning = (harp: HarpPlan, naming: NoteNaming): ToldTuning => {
  if (harp.kind === 'lever') {
    const retuned = listRetunedStrings(harp.plan.tuning, harp.profile);
    return {
      sentences: retuned.map((each) => tellRetuned(each, naming)),
      raises: retuned.some(({ from, to }) => to > from),
    };
  }
  const { tunings, retuned } = harp.plan;
  return {
    sentences: [
      ...tunings.map(({ string, alter }) =>
        WORDS.withoutDisc(nameString(string), `${string.letter}${accidentalSign(alter)}${string.octave}`),
      ),
      ...retuned.map(({ string, cents }) => `${describeStringRetuning(string, cents)}.`),
    ],
    // Which way a string without a disc is turned depends on how its player keeps it.
    raises: tunings.length > 0 || retuned.some(({ cents }) => cents > 0),
  };
};

const tellRetuned = ({ letter, strings, from, to }: RetunedLetter, naming: NoteNaming): string => {
  const [before, after] = [from, to].map((alter) => nameInWords(letter, printedAlter(alter), naming));
  return strings === null
    ? WORDS.retunedLetter(before!, after!)
    : WORDS.retunedStrings(
        before!,
        strings.map(({ octave }) => `${octave}`),
        after!,
      );
};

/** How the open strings of a lever harp are tuned. */
export const nameTuning = (harp: HarpPlan & { readonly kind: 'lever' }): string =>
  tuningName(harp.plan.tuning);

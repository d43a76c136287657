import {
  isFixedString,
  LETTERS_FROM_C,
  type LeverHarpProfile,
  type LeverPlan,
  listStrings,
  openAlter,
} from '../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameInWords } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';

/** The columns of the table of the strings, in their order. */
export const TUNING_COLUMNS = ['string', 'custom', 'tuneTo', 'change', 'up', 'gives', 'fixed'] as const;

/** The strings of one letter that are tuned alike, as cells of the table. */
type TuningRow = Readonly<Record<(typeof TUNING_COLUMNS)[number], string>>;

/** Where there is none. */
const NONE = '–';

/** How each letter is tuned by custom and for the piece, and which of its levers are up before the start. */
export const tellTunedStrings = (
  { initial, tuning }: LeverPlan,
  profile: LeverHarpProfile,
  naming: NoteNaming,
  { levers: words }: Words,
): readonly TuningRow[] => {
  const up = new Set(initial.map(({ letter, octave }) => `${letter}${octave}`));
  const strings = listStrings(profile).map((string) => ({
    ...string,
    custom: openAlter(profile.tuning, string),
    open: openAlter(tuning, string),
    isUp: up.has(`${string.letter}${string.octave}`),
    isFixed: isFixedString(profile, string),
  }));
  return LETTERS_FROM_C.flatMap((letter) => {
    const own = strings.filter((each) => each.letter === letter);
    const ways = [...new Set(own.map(({ custom, open }) => `${custom} ${open}`))];
    const name = (alter: number): string => nameInWords(letter, printedAlter(alter), naming);
    return ways.map((way): TuningRow => {
      const alike = own.filter(({ custom, open }) => `${custom} ${open}` === way);
      const { custom, open } = alike[0]!;
      const octaves = (chosen: typeof alike): string =>
        chosen.length === 0 ? NONE : words.octaves(chosen.map(({ octave }) => octave));
      const raised = alike.filter(({ isUp }) => isUp);
      const levered = alike.filter(({ isFixed }) => !isFixed);
      const letterName = nameInWords(letter, 0, naming);
      return {
        string: ways.length === 1 ? letterName : `${letterName}, ${octaves(alike)}`,
        custom: name(custom),
        tuneTo: name(open),
        change: open === custom ? NONE : words.retuned(open - custom),
        up: raised.length > 1 && raised.length === levered.length ? words.all : octaves(raised),
        gives: raised.length === 0 ? NONE : name(open + 1),
        fixed: octaves(alike.filter(({ isFixed }) => isFixed)),
      };
    });
  });
};

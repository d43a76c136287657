import {
  accidentalSign,
  type HarpString,
  isLetter,
  type OpenTuning,
  STEP_OF_LETTER,
  tuningName,
} from '../../engine/index.ts';
import { returnTime } from '../markings/markings.ts';
import type { Words } from '../words/worded.ts';
import type { LeverChange, LeverChangeMark, TimedLeverChange } from './lever-change.ts';

/** Levers that are told in one word: a string, or all strings of a letter where each of them gives the same. */
export type LeverGroup =
  | { readonly kind: 'string'; readonly change: LeverChange }
  | { readonly kind: 'letter'; readonly change: LeverChange };

/** The same, or strings of a letter in octaves that follow each other: `G♯2–5`. */
export type JoinedLevers = LeverGroup | OctaveRun;

interface OctaveRun {
  readonly kind: 'octaves';
  /** Of the lowest. */
  readonly change: LeverChange;
  readonly until: number;
}

/** More single strings than these are no longer read one by one. */
const MOST_SINGLE = 8;

/** Where many single strings are told, those of a letter together as far as their octaves follow each other. */
export const joinOctaves = (groups: readonly LeverGroup[]): readonly JoinedLevers[] => {
  const single = groups.filter(({ kind }) => kind === 'string');
  if (single.length <= MOST_SINGLE) return groups;
  const runs: JoinedLevers[] = [];
  for (const { change } of single) {
    const { letter, octave } = change.string;
    const before = runs.findIndex(
      (run) =>
        run.change.string.letter === letter &&
        run.change.alter === change.alter &&
        lastOctave(run) === octave - 1,
    );
    if (before === -1) runs.push({ kind: 'string', change });
    else runs[before] = { kind: 'octaves', change: runs[before]!.change, until: octave };
  }
  return [...runs, ...groups.filter(({ kind }) => kind === 'letter')];
};

const lastOctave = (run: JoinedLevers): number =>
  run.kind === 'octaves' ? run.until : run.change.string.octave;

/** Single strings from the lowest; then the letters of which every lever is up, by their lowest strings. */
export const groupLevers = (up: readonly LeverChange[], levers: readonly HarpString[]): LeverGroup[] => {
  const isWhole = ({ string: { letter }, alter }: LeverChange): boolean => {
    const own = up.filter((each) => each.string.letter === letter && each.alter === alter);
    return own.length > 1 && own.length === levers.filter((each) => each.letter === letter).length;
  };
  const inOrder = [...up].sort(
    (a, b) =>
      a.string.octave - b.string.octave || STEP_OF_LETTER[a.string.letter] - STEP_OF_LETTER[b.string.letter],
  );
  const whole = inOrder.filter(
    (each, i) =>
      isWhole(each) && inOrder.findIndex(({ string }) => string.letter === each.string.letter) === i,
  );
  return [
    ...inOrder.filter((each) => !isWhole(each)).map((change): LeverGroup => ({ kind: 'string', change })),
    ...whole.map((change): LeverGroup => ({ kind: 'letter', change })),
  ];
};

/** What a string gives, as a change is written: letter, accidental (the natural included) and octave: `F♯4`. */
export const leverName = ({ string: { letter, octave }, alter }: LeverChange): string =>
  `${letter}${accidentalSign(alter)}${octave}`;

/** All levers that a change tells of, those for who comes back included. */
export const allLeverChanges = (marking: LeverChangeMark): readonly LeverChange[] =>
  marking.kind === 'lever-change' ? [...marking.changes, ...marking.onReturn] : marking.changes;

/** The tonic where a tuning is a key signature's: its letter and its alteration. */
export const tonicOf = (tuning: OpenTuning) => {
  const [, letter = '', sign = ''] = /^([A-G])([♭♯]?) major$/.exec(tuningName(tuning)) ?? [];
  if (!isLetter(letter)) return null;
  return { letter, alter: sign === '♭' ? (-1 as const) : sign === '♯' ? (1 as const) : (0 as const) };
};

/** The word for the one time of playing at which a change is needed. */
export const timeInWords = (
  time: TimedLeverChange['time'],
  marking: { readonly timesPlayed: number },
  times: Words['inWords']['times'],
): string => (time === 'first' ? times.first : returnTime(marking, times));

import {
  FEET,
  type HarpPlan,
  type HarpString,
  LETTERS_FROM_C,
  type OpenTuning,
  openAlter,
  type Score,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import { rowText, settingItems } from '../draw/name-items.ts';
import type { LeverChange } from '../levers/lever-change.ts';
import { leverStart } from '../levers/lever-markings.ts';
import { groupLevers, joinOctaves } from '../levers/lever-words.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameChange } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';
import { nameTuning } from './tell-tuning.ts';

/** How the harp stands before the first note of a piece, and when its last has been played. */
export type HarpStand =
  | { readonly kind: 'pedal'; readonly begins: Setting; readonly ends: Setting }
  | {
      readonly kind: 'lever';
      readonly tuning: OpenTuning;
      /** The strings that have a lever, the lowest first. */
      readonly levers: readonly HarpString[];
      /** Those whose levers are up. */
      readonly begins: readonly LeverChange[];
      readonly ends: readonly LeverChange[];
    };

/** A piece may end before its last bar, as after D.C. al Fine: what has been changed up to the bar it ends in holds. */
export const findStand = ({ playOrder }: Pick<Score, 'playOrder'>, harp: HarpPlan): HarpStand => {
  const last = playOrder.at(-1) ?? 0;
  if (harp.kind === 'pedal') {
    const { initial, moves } = harp.plan;
    const changed = moves.filter(({ bar }) => bar <= last).map(({ letter, to }) => [letter, to]);
    return { kind: 'pedal', begins: initial, ends: { ...initial, ...Object.fromEntries(changed) } };
  }
  const { up: begins, tuning, levers } = leverStart(harp);
  const up = new Set(begins.map(({ string }) => nameOf(string)));
  for (const { string, to, bar } of harp.plan.moves) {
    if (bar > last) continue;
    if (to === 'up') up.add(nameOf(string));
    else up.delete(nameOf(string));
  }
  const ends = levers
    .filter((string) => up.has(nameOf(string)))
    .map((string) => ({ string, alter: openAlter(tuning, string) + 1 }));
  return { kind: 'lever', tuning, levers, begins, ends };
};

const nameOf = ({ letter, octave }: HarpString): string => `${letter}${octave}`;

/** How the harp stands before the first note, in sentences. */
export const tellStart = (stand: HarpStand, naming: NoteNaming, words: Words): readonly string[] => {
  if (stand.kind === 'pedal') {
    const names = rowText(settingItems(stand.begins, []), naming);
    return [`${words.labelled(words.study.opening, names)}.`];
  }
  const { tuning, begins, levers } = stand;
  const { start } = words.levers;
  const names = nameLevers(begins, levers, naming, words);
  return [
    start.tuning(nameTuning(tuning, naming, words)),
    names.length === 0 ? start.allDown : start.up(names),
  ];
};

/** Levers by what their strings give, those of a letter in one word where they are alike. */
const nameLevers = (
  changes: readonly LeverChange[],
  levers: readonly HarpString[],
  naming: NoteNaming,
  words: Words,
): readonly string[] =>
  joinOctaves(groupLevers(changes, levers)).map((told) => {
    const { string, alter } = told.change;
    const name = nameChange(string.letter, printedAlter(alter), naming);
    if (told.kind === 'letter') return words.levers.start.allOf(name);
    return `${name}${string.octave}${told.kind === 'octaves' ? `–${told.until}` : ''}`;
  });

/** What is to be set between the end of one piece and the beginning of the next, in sentences. */
export const tellBetween = (
  before: HarpStand,
  next: HarpStand,
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  const { set } = words;
  if (before.kind === 'pedal' && next.kind === 'pedal') {
    const names = SIDES.flatMap((foot) => FEET[foot])
      .filter((letter) => before.ends[letter] !== next.begins[letter])
      .map((letter) => nameChange(letter, next.begins[letter], naming));
    return [names.length === 0 ? set.nothingToSet : set.toSet(names.join(' '))];
  }
  if (before.kind !== 'lever' || next.kind !== 'lever' || !areAlike(before.levers, next.levers))
    return [set.otherHarp];
  if (!areTunedAlike(before.tuning, next.tuning)) return [set.retune];
  return tellLeversBetween(before.ends, next, naming, words);
};

const tellLeversBetween = (
  ends: readonly LeverChange[],
  { begins, levers, tuning }: HarpStand & { readonly kind: 'lever' },
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  const standing = new Set(ends.map(({ string }) => nameOf(string)));
  const wanted = new Set(begins.map(({ string }) => nameOf(string)));
  const up = begins.filter(({ string }) => !standing.has(nameOf(string)));
  const down = ends
    .filter(({ string }) => !wanted.has(nameOf(string)))
    .map(({ string }) => ({ string, alter: openAlter(tuning, string) }));
  const { start } = words.levers;
  const told = [
    ...(down.length === 0 ? [] : [start.down(nameLevers(down, levers, naming, words))]),
    ...(up.length === 0 ? [] : [start.up(nameLevers(up, levers, naming, words))]),
  ];
  return told.length === 0 ? [words.set.nothingToSet] : [words.set.toSet(told.join(' ').replace(/\.$/u, ''))];
};

const areAlike = (a: readonly HarpString[], b: readonly HarpString[]): boolean =>
  a.map(nameOf).join() === b.map(nameOf).join();

const areTunedAlike = (a: OpenTuning, b: OpenTuning): boolean =>
  LETTERS_FROM_C.every((letter) => a.letters[letter] === b.letters[letter]) &&
  [...a.exceptions, ...b.exceptions].every(({ string }) => openAlter(a, string) === openAlter(b, string));

import {
  FEET,
  type HarpString,
  leversBefore,
  leversToSet,
  listRetunedStrings,
  listStrings,
  nameString,
  openAlter,
  type RetunedLetter,
  type Setting,
  SIDES,
  stringsWithLevers,
} from '../../engine/index.ts';
import { rowText, settingItems } from '../draw/name-items.ts';
import type { LeverChange } from '../levers/lever-change.ts';
import { groupLevers, joinOctaves } from '../levers/lever-words.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { nameChange } from '../sheets/note-words.ts';
import type { Words } from '../words/worded.ts';
import type { HarpStand, LeverStand } from './harp-stand.ts';
import { nameTuning, tellRetuned } from './tell-tuning.ts';

/** Whether the levers are up as they stand, by the names of their strings. */
type Standing = ReadonlyMap<string, boolean>;

/**
 * For pieces that are played one after the other: how the harp is to stand before each, and what of that is to be set
 * after the one before, in sentences. A lever stays where an earlier piece left it while no piece plays its string.
 */
export const tellStands = (
  stands: readonly HarpStand[],
  naming: NoteNaming,
  words: Words,
): readonly (readonly string[])[] => {
  const standings = followLevers(stands);
  return stands.map((stand, i) => [
    tellStart(stand, naming, words).join(' '),
    ...(startsRun(stands, i) ? tellAhead(stand, standings[i]!, naming, words) : []),
    ...tellBetween(stands[i - 1], stand, standings[i]!, naming, words),
  ]);
};

/** How the levers stand when each of the pieces is to be prepared, its strings retuned. */
const followLevers = (stands: readonly HarpStand[]): readonly Standing[] => {
  let standing: Standing = new Map();
  return stands.map((stand, i) => {
    if (stand.kind === 'pedal') return new Map();
    const prepared = startsRun(stands, i)
      ? new Map([...lowered(null, stand), ...prepareRun(runFrom(stands, i, stand))])
      : new Map([...standing, ...lowered(listRetuned(stands[i - 1], stand), stand)]);
    standing = new Map([...prepared, ...stand.last]);
    return prepared;
  });
};

/** Whether a piece is not played on the same lever harp as the one before it. */
const startsRun = (stands: readonly HarpStand[], i: number): boolean => {
  const [before, stand] = [stands[i - 1], stands[i]!];
  return stand.kind === 'pedal' || before?.kind !== 'lever' || !isSameHarp(before, stand);
};

/** The pieces that are played on one lever harp, one after the other. */
const runFrom = (stands: readonly HarpStand[], i: number, first: LeverStand): readonly LeverStand[] => {
  const later = stands.slice(i + 1);
  const end = later.findIndex((_, place) => startsRun(stands, i + 1 + place));
  const run = later.slice(0, end < 0 ? later.length : end);
  return [first, ...run.flatMap((stand) => (stand.kind === 'lever' ? [stand] : []))];
};

/** How the levers stand before the first of these pieces; of a string that is retuned later only until then. */
const prepareRun = (run: readonly LeverStand[]): Standing => {
  const retuned = new Set<string>();
  return leversBefore(
    run.map((stand, i) => {
      const own = i === 0 ? [] : lowered(listRetuned(run[i - 1], stand), stand);
      for (const [name] of own) retuned.add(name);
      return { first: new Map(stand.first.filter(([name]) => !retuned.has(name))) };
    }),
  );
};

/** A string is tuned with its lever down; null for all strings. */
const lowered = (
  retuned: readonly RetunedLetter[] | null,
  { profile }: LeverStand,
): readonly (readonly [string, boolean])[] =>
  listStrings(profile)
    .filter((string) => retuned === null || retuned.some((each) => isAmong(string, each)))
    .map((string) => [nameString(string), false]);

const isAmong = (string: HarpString, { letter, strings }: RetunedLetter): boolean =>
  string.letter === letter && (strings === null || strings.some(({ octave }) => octave === string.octave));

/** What is retuned for a piece: after the one before it, or from the custom of the harp. */
const listRetuned = (before: HarpStand | undefined, { profile, tuning }: LeverStand) =>
  listRetunedStrings(before?.kind === 'lever' ? before.tuning : profile.tuning, tuning, profile);

const isSameHarp = (a: LeverStand, b: LeverStand): boolean => {
  const names = ({ profile }: LeverStand): string =>
    [listStrings(profile), stringsWithLevers(profile)].map((each) => each.map(nameString).join()).join(';');
  return names(a) === names(b);
};

/** How the harp stands before the first note, in sentences. */
export const tellStart = (stand: HarpStand, naming: NoteNaming, words: Words): readonly string[] => {
  if (stand.kind === 'pedal') {
    const names = rowText(settingItems(stand.begins, []), naming);
    return [`${words.labelled(words.study.opening, names)}.`];
  }
  return [
    words.levers.start.tuning(nameTuning(stand.tuning, naming, words)),
    tellLeversUp(stand, naming, words),
  ];
};

/** Which levers are up before the first note. */
export const tellLeversUp = (stand: LeverStand, naming: NoteNaming, words: Words): string => {
  const names = nameLevers(stand.begins, stand, naming, words);
  return names.length === 0 ? words.levers.start.allDown : words.levers.start.up(names);
};

/** Levers by what their strings give, those of a letter in one word where they are alike. */
const nameLevers = (
  changes: readonly LeverChange[],
  { profile }: LeverStand,
  naming: NoteNaming,
  words: Words,
): readonly string[] =>
  joinOctaves(groupLevers(changes, stringsWithLevers(profile))).map((told) => {
    const { string, alter } = told.change;
    const name = nameChange(string.letter, printedAlter(alter), naming);
    if (told.kind === 'letter') return words.levers.start.allOf(name);
    return `${name}${string.octave}${told.kind === 'octaves' ? `–${told.until}` : ''}`;
  });

/** What later pieces want up of the strings that the first leaves alone, in a sentence. */
const tellAhead = (
  stand: HarpStand,
  standing: Standing,
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  if (stand.kind === 'pedal') return [];
  const own = new Set(stand.begins.map(({ string }) => nameString(string)));
  const ahead = stringsWithLevers(stand.profile)
    .filter((string) => standing.get(nameString(string)) === true && !own.has(nameString(string)))
    .map((string) => ({ string, up: true, alter: openAlter(stand.tuning, string) + 1 }));
  if (ahead.length === 0) return [];
  const names = words.levers.start.up(nameLevers(ahead, stand, naming, words));
  return [words.set.setAhead(names.replace(/\.$/u, ''))];
};

/** What is to be set between the end of one piece and the beginning of the next, in sentences. */
const tellBetween = (
  before: HarpStand | undefined,
  next: HarpStand,
  standing: Standing,
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  if (next.kind === 'pedal') {
    if (before === undefined) return [];
    return [
      before.kind === 'pedal' ? tellPedals(before.ends, next.begins, naming, words) : words.set.otherHarp,
    ];
  }
  const retuned = (from: HarpStand | undefined) => tellRetuning(listRetuned(from, next), next, naming, words);
  if (before === undefined) return retuned(undefined);
  if (before.kind === 'pedal' || !isSameHarp(before, next))
    return [words.set.otherHarp, ...retuned(undefined)];
  const toTune = retuned(before);
  const toSet = tellLevers(standing, next, naming, words);
  if (toSet !== null) return [...toTune, toSet];
  return toTune.length === 0 ? [words.set.nothingToSet] : toTune;
};

const tellPedals = (ends: Setting, begins: Setting, naming: NoteNaming, { set }: Words): string => {
  const names = SIDES.flatMap((foot) => FEET[foot])
    .filter((letter) => ends[letter] !== begins[letter])
    .map((letter) => nameChange(letter, begins[letter], naming));
  return names.length === 0 ? set.nothingToSet : set.toSet(names.join(', '));
};

/** The strings and which way they are turned, with the caution where one comes above its usual pitch. */
const tellRetuning = (
  retuned: readonly RetunedLetter[],
  { profile, tuning }: LeverStand,
  naming: NoteNaming,
  words: Words,
): readonly string[] => {
  if (retuned.length === 0) return [];
  const raised = listRetunedStrings(profile.tuning, tuning, profile).filter(({ from, to }) => to > from);
  const isRaised = retuned.some(
    ({ letter, from, to }) => to > from && raised.some((each) => each.letter === letter),
  );
  const sentences = retuned.map((each) => tellRetuned(each, naming, words)).join(' ');
  return [words.labelled(words.set.retune, sentences), ...(isRaised ? [words.tuning.caution] : [])];
};

/** The levers to set; null where there are none. */
const tellLevers = (
  standing: Standing,
  next: LeverStand,
  naming: NoteNaming,
  words: Words,
): string | null => {
  const wanted = leversToSet(standing, { first: new Map(next.first) });
  const changes = stringsWithLevers(next.profile).flatMap((string) => {
    const up = wanted.get(nameString(string));
    return up === undefined ? [] : [{ string, up, alter: openAlter(next.tuning, string) + Number(up) }];
  });
  const named = (isUp: boolean): readonly string[] =>
    nameLevers(
      changes.filter(({ up }) => up === isUp),
      next,
      naming,
      words,
    );
  const { start } = words.levers;
  const [down, up] = [named(false), named(true)];
  const told = [...(down.length === 0 ? [] : [start.down(down)]), ...(up.length === 0 ? [] : [start.up(up)])];
  return told.length === 0 ? null : words.set.toSet(told.join(' ').replace(/\.$/u, ''));
};

import { group } from 'd3-array';
import {
  beatAt,
  compare,
  type HarpString,
  isMadeAt,
  type LeverHarpProfile,
  type LeverMove,
  type LeverPlan,
  nameString,
  type OneTime,
  type OpenTuning,
  openAlter,
  placeAsTold,
  rationalKey,
  type Score,
  stringsWithLevers,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { LEVER_LOOKS } from '../looks/lever-looks.ts';
import { NAMES } from '../looks/levers/names.ts';
import type { MarkingPlace } from '../markings/markings.ts';
import { comparePasses, type SettingRules } from '../markings/passes.ts';
import { startTelling } from '../markings/told-in-words.ts';
import type { LeverChange, LeverChangeMark, TimedLeverChange, ToldLeverChange } from './lever-change.ts';
import { neededTimes } from './needed-times.ts';
import { findNoteHosts } from './note-hosts.ts';

/** What is printed of a lever plan at one place. */
export type LeverMarking = MarkingPlace & {
  /** How often the bar is played in all. */
  readonly timesPlayed: number;
} & (
    | {
        readonly kind: 'levers';
        readonly tuning: OpenTuning;
        /** Told again as the levers then stand; the first time the tuning stands beside it. */
        readonly isReminder: boolean;
        /** They stand so for the first time only: when the music comes back here, some stand elsewhere. */
        readonly firstTimeOnly: boolean;
        /** The levers that are up. */
        readonly up: readonly LeverChange[];
        /** The strings that have a lever, the lowest first. */
        readonly levers: readonly HarpString[];
      }
    | LeverChangeMark
  );

/**
 * The markings that tell a lever plan to the player, in order of time: the tuning and the levers before the first note,
 * then each change at its moment, those of one moment together.
 *
 * A change that is to be shown as a note but has nothing to stand before, such as one in a bar of rest, is told by name,
 * and so is one that is told in words, or is made at one time of playing alone.
 *
 * @param reminders bars (indices) at whose start the levers are told as they then stand, where one has moved since they
 * were told last
 */
export const chooseLeverMarkings = (
  score: Score,
  plan: LeverPlan,
  profile: LeverHarpProfile,
  { leverLook, changeWords }: Pick<EngravingOptions, 'leverLook' | 'changeWords'>,
  reminders: readonly number[] = [],
): LeverMarking[] => {
  const moments = groupByMoment(placeAsTold(score, plan.moves));
  const tables = barsWithNews(score, plan.moves, reminders);
  const { timesPlayed, differ, upAt } = passesOf(score, plan, moments, tables);
  const start: LeverMarking = {
    kind: 'levers',
    id: 'marking-1',
    ...barStart(score, 0),
    timesPlayed: timesPlayed(0),
    ...{ isReminder: false, firstTimeOnly: false },
    ...leverStart({ plan, profile }),
  };
  const hostOf = findNoteHosts(score);
  const { mark } = LEVER_LOOKS[leverLook];
  const timeOf = neededTimes(score, { ...plan, moves: moments.flat() }, tables);
  const news = changeWords ? newChanges() : () => [];
  const changes = moments.map((moves, i): LeverMarking => {
    const id = `marking-${i + 2}`;
    const { at, bar, beat, graceNote } = moves[0]!;
    const inWords = news(moves);
    const told = inWords.length === 0 ? mark(moves, id, hostOf) : NAMES.mark(moves, id, hostOf);
    const place = { id, at, bar, beat, graceNote, timesPlayed: timesPlayed(bar) };
    return told.kind === 'lever-change'
      ? { ...place, ...told, atOneTime: atOneTime(moves, timeOf), inWords }
      : { ...place, ...told };
  });
  const leversAt = (bar: number) => {
    const up = upAt(bar);
    // A bar that is never played is told as it is printed.
    return up === null
      ? leversAfter({ plan, profile }, ({ at }) => compare(at, score.bars[bar]!.onset) < 0)
      : leversUp({ plan, profile }, up);
  };
  const again = tables.map(
    (bar): LeverMarking => ({
      kind: 'levers',
      id: `levers-in-bar-${bar}`,
      ...barStart(score, bar),
      timesPlayed: timesPlayed(bar),
      ...{ isReminder: true, firstTimeOnly: differ(bar) },
      ...leversAt(bar),
    }),
  );
  return [start, ...again, ...changes].sort((a, b) => compare(a.at, b.at));
};

/**
 * The plan with each change for the one time of playing that the page tells beside it.
 *
 * @param reminders as in `chooseLeverMarkings`
 */
export const leversAsTold = (score: Score, plan: LeverPlan, reminders: readonly number[]): LeverPlan => {
  const placed = placeAsTold(score, plan.moves);
  const timeOf = neededTimes(score, { ...plan, moves: placed }, barsWithNews(score, plan.moves, reminders));
  return { ...plan, moves: plan.moves.map((move, i) => ({ ...move, onlyAt: timeOf(placed[i]!) })) };
};

/** The bars before whose start a lever has moved since the one before of them, or since the start. */
const barsWithNews = (
  { bars }: Score,
  moves: readonly LeverMove[],
  reminders: readonly number[],
): readonly number[] => {
  const made = (bar: number): number => moves.filter(({ at }) => compare(at, bars[bar]!.onset) < 0).length;
  return reminders.filter((bar, i) => bar > 0 && made(bar) > made(reminders[i - 1] ?? 0));
};

/** The moves of each moment in turn that are told in words too. */
const newChanges = (): ((moves: readonly LeverMove[]) => readonly ToldLeverChange[]) => {
  const told = startTelling(({ string, to }: LeverMove) => `${nameString(string)}${to}`);
  return (moves) => told(moves).map(({ string, alter, hand, to }) => ({ string, alter, hand, to }));
};

/** The changes of a moment that are needed at one time of playing alone. */
const atOneTime = (
  moves: readonly LeverMove[],
  timeOf: (move: LeverMove) => OneTime | null,
): readonly TimedLeverChange[] =>
  moves.flatMap((move) => {
    const [{ string, alter, hand, onlyAt }, time] = [move, timeOf(move)];
    return time === null ? [] : [{ string, alter, hand, time, isBinding: onlyAt !== null }];
  });

const barStart = (score: Score, bar: number) => {
  const { onset } = score.bars[bar]!;
  return { at: onset, bar, beat: beatAt(score.bars[bar]!, onset), graceNote: null };
};

/**
 * How often bars are played, at which of the tables (by their bars) levers stand otherwise later, and which levers are up
 * where the music first comes to one: who comes to a second ending has not played the first. What is changed right at a
 * table stands beside it, and tells by itself for which time it is.
 */
const passesOf = (
  score: Score,
  { initial }: LeverPlan,
  moments: readonly (readonly LeverMove[])[],
  tables: readonly number[],
) => {
  const changes = moments.map((moves) => ({ ...moves[0]!, moves }));
  const told = tables.map((bar) => ({ ...barStart(score, bar), moves: [] as readonly LeverMove[] }));
  const rules = { initial: new Set(initial.map(nameString)), ...LEVERS };
  const play = (places: readonly (typeof changes | typeof told)[number][]) =>
    comparePasses(
      score,
      places.toSorted((a, b) => compare(a.at, b.at)),
      rules,
    );
  const [after, before] = [play([...changes, ...told]), play([...told, ...changes])];
  const tableAt = (bar: number) => told.find((each) => each.bar === bar)!;
  return {
    timesPlayed: after.timesPlayed,
    differ: (bar: number) => after.differ(tableAt(bar)),
    upAt: (bar: number) => before.firstTime(tableAt(bar)),
  };
};

/** How changes leave the levers: those that are up, by name. */
const LEVERS: Omit<SettingRules<ReadonlySet<string>, { readonly moves: readonly LeverMove[] }>, 'initial'> = {
  after: (up, { moves }, pass) => {
    const made = moves.filter(({ onlyAt }) => isMadeAt(onlyAt, pass));
    const moved = new Map(made.map(({ string, to }) => [nameString(string), to]));
    const raised = [...moved.keys()].filter((name) => moved.get(name) === 'up');
    return new Set([...[...up].filter((name) => moved.get(name) !== 'down'), ...raised]);
  },
  areAlike: (one, other) => one.size === other.size && [...one].every((name) => other.has(name)),
};

/** How the levers stand when those changes are made that are asked for. */
const leversAfter = (
  harp: { readonly plan: LeverPlan; readonly profile: LeverHarpProfile },
  isMade: (move: LeverMove) => boolean,
) => {
  const up = new Set(harp.plan.initial.map(nameString));
  for (const { string, to } of harp.plan.moves.filter(isMade)) {
    if (to === 'up') up.add(nameString(string));
    else up.delete(nameString(string));
  }
  return leversUp(harp, up);
};

/** How the levers are told where those of some names are up. */
const leversUp = (
  harp: { readonly plan: LeverPlan; readonly profile: LeverHarpProfile },
  up: ReadonlySet<string>,
) => {
  const initial = stringsWithLevers(harp.profile).filter((string) => up.has(nameString(string)));
  return leverStart({ ...harp, plan: { ...harp.plan, initial } });
};

/** How the levers stand before the first note. */
export const leverStart = ({
  plan: { initial, tuning },
  profile,
}: {
  readonly plan: LeverPlan;
  readonly profile: LeverHarpProfile;
}) => ({
  tuning,
  up: initial.map((string) => ({ string, alter: openAlter(tuning, string) + 1 })),
  levers: stringsWithLevers(profile),
});

const groupByMoment = (moves: readonly LeverMove[]): LeverMove[][] => [
  ...group(moves, ({ at, graceNote }) => `${rationalKey(at)};${graceNote ?? ''}`).values(),
];

import { group } from 'd3-array';
import {
  beatAt,
  type HarpString,
  type LeverHarpProfile,
  type LeverMove,
  type LeverPlan,
  type OpenTuning,
  openAlter,
  rationalKey,
  type Score,
  stringsWithLevers,
} from '../../engine/index.ts';
import { LEVER_LOOKS, type LeverLookName } from '../looks/lever-looks.ts';
import type { MarkingPlace } from '../markings/markings.ts';
import type { LeverChange, LeverChangeMark } from './lever-change.ts';
import { findNoteHosts } from './note-hosts.ts';

/** What is printed of a lever plan at one place. */
export type LeverMarking = MarkingPlace &
  (
    | {
        readonly kind: 'levers';
        readonly tuning: OpenTuning;
        /** The levers that are up before the first note. */
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
 * A change that is to be shown as a note but has nothing to stand before, such as one in a bar of rest, is told by name.
 */
export const chooseLeverMarkings = (
  score: Score,
  plan: LeverPlan,
  profile: LeverHarpProfile,
  look: LeverLookName,
): LeverMarking[] => {
  const start: LeverMarking = {
    kind: 'levers',
    id: 'marking-1',
    ...{
      at: score.bars[0]!.onset,
      bar: 0,
      beat: beatAt(score.bars[0]!, score.bars[0]!.onset),
      graceNote: null,
    },
    ...leverStart({ plan, profile }),
  };
  const hostOf = findNoteHosts(score);
  const { mark } = LEVER_LOOKS[look];
  const changes = groupByMoment(plan.moves).map((moves, i): LeverMarking => {
    const id = `marking-${i + 2}`;
    const { at, bar, beat, graceNote } = moves[0]!;
    return { id, at, bar, beat, graceNote, ...mark(moves, id, hostOf) };
  });
  return [start, ...changes];
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

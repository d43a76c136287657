import { group } from 'd3-array';
import type { LeverHarpProfile } from '../../engine/harp/lever-profile.ts';
import { stringsWithLevers } from '../../engine/harp/levered-strings.ts';
import { type OpenTuning, openAlter } from '../../engine/harp/open-tuning.ts';
import type { HarpString } from '../../engine/harp/profile.ts';
import type { LeverMove, LeverPlan } from '../../engine/levers/model.ts';
import { rationalKey } from '../../engine/music/rational.ts';
import type { Score } from '../../engine/score/model.ts';
import { beatAt } from '../../engine/time/moments.ts';
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
    ...{
      tuning: plan.tuning,
      up: plan.initial.map((string) => ({ string, alter: openAlter(plan.tuning, string) + 1 })),
      levers: stringsWithLevers(profile),
    },
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

const groupByMoment = (moves: readonly LeverMove[]): LeverMove[][] => [
  ...group(moves, ({ at, graceNote }) => `${rationalKey(at)};${graceNote ?? ''}`).values(),
];

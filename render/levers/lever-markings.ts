import { group } from 'd3-array';
import type { LeverHarpProfile } from '../../engine/harp/lever-harps.ts';
import { stringsWithLevers } from '../../engine/harp/levered-strings.ts';
import { type OpenTuning, openAlter } from '../../engine/harp/open-tuning.ts';
import type { HarpString } from '../../engine/harp/profile.ts';
import type { LeverMove, LeverPlan } from '../../engine/levers/model.ts';
import { rationalKey } from '../../engine/music/rational.ts';
import type { Score } from '../../engine/score/model.ts';
import { beatAt } from '../../engine/time/moments.ts';
import type { LeverLook } from '../engraving-options.ts';
import type { MarkingPlace } from '../markings/markings.ts';
import { findNoteHosts } from './note-hosts.ts';

/** One lever of a change as printed: the string, and what it gives from here on. */
export interface LeverChange {
  readonly string: HarpString;
  /** Semitones above the natural of its letter. */
  readonly alter: number;
}

/** A change that is shown as a small note on the string's line, before a note, chord or rest of the score. */
export interface LeverNote extends LeverChange {
  /** The layout's id of the small note. */
  readonly id: string;
  /** Id of the note or rest that it stands before. */
  readonly host: string;
}

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
    | { readonly kind: 'lever-change'; readonly changes: readonly LeverChange[] }
    | { readonly kind: 'lever-notes'; readonly changes: readonly LeverNote[] }
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
  look: LeverLook,
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
  const hostOf = look === 'notes' ? findNoteHosts(score) : () => null;
  const changes = groupByMoment(plan.moves).map((moves, i) =>
    changeMarking(moves, `marking-${i + 2}`, hostOf),
  );
  return [start, ...changes];
};

const groupByMoment = (moves: readonly LeverMove[]): LeverMove[][] => [
  ...group(moves, ({ at, graceNote }) => `${rationalKey(at)};${graceNote ?? ''}`).values(),
];

const changeMarking = (
  moves: readonly LeverMove[],
  id: string,
  hostOf: (move: LeverMove) => string | null,
): LeverMarking => {
  const { at, bar, beat, graceNote } = moves[0]!;
  const place = { id, at, bar, beat, graceNote };
  const changes = moves.map(({ string, alter }) => ({ string, alter }));
  const hosts = moves.map(hostOf);
  return hosts.every((host) => host !== null)
    ? {
        kind: 'lever-notes',
        ...place,
        changes: changes.map((each, i) => ({ ...each, id: `${id}-${i + 1}`, host: hosts[i]! })),
      }
    : { kind: 'lever-change', ...place, changes };
};

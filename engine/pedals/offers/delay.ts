import type { FindingPlace } from '../../findings/model.ts';
import { rationalKey } from '../../music/rational.ts';
import { canWaitUntil, type Delays, delayNotes } from '../../score/delay-notes.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlace } from '../../time/moments.ts';
import { keepMoments } from '../../time/same-moments.ts';
import type { Plan } from '../model.ts';
import type { NoteDelay } from './model.ts';
import { octavesOf } from './note-candidates.ts';
import { isRemoved, type OfferTrials } from './trials.ts';

/** Times to wait for that are tried for one group of notes, the nearest first. */
const MOST_TIMES = 4;

/** A delay that was planned with, and the plan. */
export interface FoundDelay {
  readonly delay: NoteDelay;
  readonly after: Plan;
}

/**
 * Of each of the notes of a place, with those of its chord that need the same pedal in the same position: the shortest
 * wait for another note or a beat, while they would still sound, with which the trouble is gone.
 */
export const findDelays = (
  score: Score,
  { notes }: FindingPlace,
  trouble: string,
  before: Plan,
  trials: OfferTrials,
): readonly FoundDelay[] =>
  octavesOf(score, notes).flatMap((group) => {
    for (const until of timesFor(group, trials)) {
      const delays: Delays = new Map(group.map(({ id }) => [id, until]));
      if (!keepMoments(score, delays)) continue;
      const after = trials.planAs(delayNotes(score, delays));
      if (isRemoved(trouble, before, after)) {
        return [{ delay: { notes: group.map(({ id }) => id), until }, after }];
      }
    }
    return [];
  });

/** When something else begins, or a beat falls, while all of the notes still sound. */
const timesFor = (group: readonly Note[], { moments }: OfferTrials) => {
  const [first] = group;
  if (first === undefined) return [];
  const times = moments
    .filter(
      (moment) =>
        isPlace(moment) &&
        (moment.onBeat || moment.notesPlucked > 0) &&
        group.every((note) => canWaitUntil(note, moment.at)),
    )
    .map(({ at }) => at);
  return [...new Map(times.map((at) => [rationalKey(at), at])).values()].slice(0, MOST_TIMES);
};

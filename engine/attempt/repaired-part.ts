import type { Letter } from '../music/pitch.ts';
import { applyFixes } from '../proof/apply-fixes.ts';
import type { MarkingPlayback } from '../proof/marking-playback.ts';
import type { MarkingFix } from '../proof/model.ts';
import { type PartEvents, placeMarkings } from '../proof/part-events.ts';
import { type MarksAt, playByMarkings } from '../proof/play-by-markings.ts';
import type { Score } from '../score/model/score.ts';

/** Tells a pedal of a marking. */
export const keyOf = (marking: number, letter: Letter): string => `${marking} ${letter}`;

/** The part as it goes by the markings with all edits made: what only follows from another mistake is no mistake. */
export interface RepairedPart {
  readonly score: Score;
  readonly playback: MarkingPlayback;
  /** The index before the repair of a marking that it left as it was; undefined of any other. */
  readonly originOf: ReadonlyMap<number, number>;
  /** By the indices before the repair. */
  readonly hasChanged: (marking: number, letter: Letter) => boolean;
}

export const playRepaired = (
  score: Score,
  part: PartEvents,
  made: readonly MarkingFix[],
  marksAt: MarksAt,
): RepairedPart => {
  const { markings, origins } = applyFixes(score.markings, made);
  const repaired = { ...score, markings };
  const playback = playByMarkings(repaired, placeMarkings(repaired, part), marksAt);
  const originOf = new Map(
    origins.flatMap((origin, index) => (typeof origin === 'number' ? [[index, origin] as const] : [])),
  );
  const indexOf = new Map([...originOf].map(([index, origin]) => [origin, index]));
  return {
    score: repaired,
    playback,
    originOf,
    hasChanged: (marking, letter) => {
      const index = indexOf.get(marking);
      return index !== undefined && playback.effectOf(index, letter).changed > 0;
    },
  };
};

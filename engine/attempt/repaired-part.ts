import type { Letter } from '../music/pitch.ts';
import { applyFixes } from '../proof/apply-fixes.ts';
import { listRedundantMarkings } from '../proof/marking-faults.ts';
import type { MarkingPlayback } from '../proof/marking-playback.ts';
import type { Proof } from '../proof/model.ts';
import { type PartEvents, placeMarkings } from '../proof/part-events.ts';
import { playByMarkings } from '../proof/play-by-markings.ts';
import type { ProofOptions } from '../proof/proof.ts';
import type { Score } from '../score/model.ts';
import type { JudgedChange } from './model.ts';

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
  { repair: { edits, markings } }: Proof,
  { marksAt }: ProofOptions,
): RepairedPart => {
  const repaired = { ...score, markings };
  const playback = playByMarkings(repaired, placeMarkings(repaired, part), marksAt);
  const origins = applyFixes(
    score.markings,
    edits.flatMap(({ fixes }) => fixes),
  ).origins;
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

/** What is written for nothing, even where all else is put right: by marking and pedal. */
export const redundantByPedal = ({
  score,
  playback,
  originOf,
}: RepairedPart): ReadonlyMap<string, JudgedChange['needless']> =>
  new Map(
    listRedundantMarkings(score, playback).flatMap(({ marking, letter, why }) => {
      const origin = originOf.get(marking);
      return origin === undefined ? [] : [[keyOf(origin, letter), why] as const];
    }),
  );

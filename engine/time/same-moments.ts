import { equals } from '../music/rational.ts';
import { buildClock } from '../score/bars/clock.ts';
import { type Delays, delayNotes } from '../score/delay-notes.ts';
import type { Score } from '../score/model/score.ts';
import { listMoments } from './moments.ts';

/** Whether feet and hands have the same moments to move at once notes wait: these wait for one that there is. */
export const keepMoments = (score: Score, delays: Delays): boolean => {
  const secondsAt = buildClock(score.tempo);
  const [before, after] = [score, delayNotes(score, delays)].map((each) => listMoments(each, secondsAt).all);
  return (
    before!.length === after!.length &&
    before!.every(({ at, grace }, i) => equals(at, after![i]!.at) && grace === after![i]!.grace)
  );
};

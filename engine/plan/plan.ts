import { CONCERT_HARP, type PedalHarpProfile } from '../harp/profile.ts';
import { FEET, isPosition, settingFrom } from '../harp/setting.ts';
import { keyAlter, LETTERS, type Letter } from '../music/pitch.ts';
import { buildClock } from '../score/clock.ts';
import type { Score } from '../score/model.ts';
import { findingsOf } from './findings.ts';
import { type PlacedMove, placeFoot } from './foot.ts';
import type { Move, Plan } from './model.ts';
import { beatAt, listMoments, type Moments } from './moments.ts';
import { listNeeds, type Need } from './needs.ts';
import { courseOf, type PedalCourse, type PlacedNeed } from './positions.ts';
import { tuneFixedStrings } from './tuning.ts';
import { WEIGHTS } from './weights.ts';

/**
 * Plans the pedals of a part as written, in printed order.
 *
 * Each pedal makes the fewest moves its needs allow; each foot's moves are then placed at the cheapest moments, both
 * by exact dynamic programmes. What cannot be served or done in time is still planned and becomes a finding.
 */
export const planPedals = (score: Score, profile: PedalHarpProfile = CONCERT_HARP): Plan => {
  const secondsAt = buildClock(score.tempo);
  const listed = listNeeds(score, profile);
  const moments = listMoments(score, secondsAt);
  const courses = new Map<Letter, PedalCourse>();
  const placed: PlacedMove[] = [];
  for (const foot of ['left', 'right'] as const) {
    const needs = FEET[foot].map((letter) => placeNeeds(listed.needs, letter, moments));
    const paths = FEET[foot].map((letter, i) => courseOf(needs[i]!, idlePosition(score, letter)));
    FEET[foot].forEach((letter, i) => {
      courses.set(letter, paths[i]!);
    });
    placed.push(...placeFoot(foot, paths, needs, moments, secondsAt));
  }
  placed.sort((a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter));
  const tuned = tuneFixedStrings(listed.onFixedStrings, profile);
  return {
    initial: settingFrom((letter) => courses.get(letter)!.initial),
    moves: placed.map((move) => describeMove(move, moments, score)),
    findings: findingsOf({
      score,
      needs: listed,
      unserved: [...courses.values()].flatMap((course) => course.unserved),
      placed,
      moments,
      fixed: tuned,
    }),
    respellings: listed.respellings,
    tunings: tuned.tunings,
  };
};

/** A pedal that nothing needs stands as the key signature says. */
const idlePosition = (score: Score, letter: Letter) => {
  const alter = keyAlter(score.bars[0]?.keyFifths ?? 0, letter);
  return isPosition(alter) ? alter : 0;
};

/** Needs of one letter at their moments; a held need stands at every moment of its span. */
const placeNeeds = (needs: readonly Need[], letter: Letter, moments: Moments): PlacedNeed[] => {
  const placed: PlacedNeed[] = [];
  for (const need of needs) {
    if (need.letter !== letter) continue;
    const first = moments.ofNote(need.note);
    const last = Math.max(first, moments.lastBefore(need.heldUntil));
    for (let moment = first; moment <= last; moment += 1) placed.push({ need, moment });
  }
  return placed.sort((a, b) => a.moment - b.moment);
};

const describeMove = (placed: PlacedMove, moments: Moments, score: Score): Move => {
  const { letter, foot, pending, moment, cost, tooSoon } = placed;
  const { at, bar } = moments.all[moment]!;
  return {
    letter,
    foot,
    from: pending.from,
    to: pending.to,
    at,
    bar,
    beat: beatAt(score.bars[bar]!, at),
    window: {
      after: { note: pending.after.note.id, onset: pending.after.onset },
      before: { note: pending.before.note.id, onset: pending.before.onset },
    },
    cost: tooSoon ? [...cost, { name: 'footTooBusy', amount: WEIGHTS.footTooBusy }] : cost,
  };
};

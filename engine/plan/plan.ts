import { type Foot, isPosition, settingFrom } from '../harp/setting.ts';
import { keyAlter, LETTERS, type Letter } from '../music/pitch.ts';
import { buildClock } from '../score/clock.ts';
import type { Score } from '../score/model.ts';
import type { PlacedNeed } from './choices.ts';
import { findingsOf } from './findings.ts';
import { type FootPlan, type PlacedMove, planFoot, type Stage } from './foot.ts';
import type { Move, Plan } from './model.ts';
import { beatAt, listMoments, type Moments } from './moments.ts';
import { listNeeds, type Need } from './needs.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from './options.ts';
import { buildPlayGraph } from './play-graph.ts';
import { tuneFixedStrings } from './tuning.ts';

/**
 * Plans the pedals of a part as written: markings that hold on every pass, with the fewest unmet needs, then the
 * fewest moves without time, then the fewest moves, then the best moments for them.
 *
 * Exact for each foot (see `findFootCourse`); the feet do not hinder each other. What cannot be served or done in time
 * is still planned and becomes a finding.
 */
export const planPedals = (score: Score, options: PlanOptions = DEFAULT_OPTIONS): Plan => {
  const secondsAt = buildClock(score.tempo);
  const listed = listNeeds(score, options.profile);
  const moments = listMoments(score, secondsAt);
  const stage: Stage = {
    moments,
    graph: buildPlayGraph(score, moments.all, secondsAt),
    secondsAt,
    weights: options.weights,
    together: options.pedalsTogether,
    idle: (letter) => idlePosition(score, letter),
  };
  const placed = placeNeeds(listed.needs, moments);
  const feet: Readonly<Record<Foot, FootPlan>> = {
    left: planFoot('left', placed, stage),
    right: planFoot('right', placed, stage),
  };
  const both = [feet.left, feet.right];
  const moves = both
    .flatMap((foot) => foot.moves)
    .sort((a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter));
  const fixed = tuneFixedStrings(listed.onFixedStrings, options.profile);
  return {
    initial: settingFrom((letter) => both.find((foot) => foot.initial.has(letter))!.initial.get(letter)!),
    moves: moves.map((move) => describeMove(move, stage, score)),
    findings: findingsOf({
      score,
      needs: listed,
      unserved: both.flatMap((foot) => foot.unserved),
      moves,
      moments,
      fixed,
    }),
    respellings: listed.respellings,
    tunings: fixed.tunings,
  };
};

/** A pedal that nothing needs stands as the key signature says. */
const idlePosition = (score: Score, letter: Letter) => {
  const alter = keyAlter(score.bars[0]?.keyFifths ?? 0, letter);
  return isPosition(alter) ? alter : 0;
};

/** Needs by letter at their moments, in order; a held need stands at every moment of its span. */
const placeNeeds = (needs: readonly Need[], moments: Moments): ReadonlyMap<Letter, readonly PlacedNeed[]> => {
  const placed = new Map<Letter, PlacedNeed[]>(LETTERS.map((letter) => [letter, []]));
  for (const need of needs) {
    const first = moments.ofNote(need.note);
    const last = Math.max(first, moments.lastBefore(need.heldUntil));
    for (let moment = first; moment <= last; moment += 1) placed.get(need.letter)!.push({ need, moment });
  }
  for (const each of placed.values()) each.sort((a, b) => a.moment - b.moment);
  return placed;
};

const describeMove = (move: PlacedMove, { moments, weights }: Stage, score: Score): Move => {
  const { letter, foot, from, to, after, before, restores, manner, cost } = move;
  const { at, bar, graceNote } = moments.all[move.moment]!;
  const hurry = manner === 'too-soon' ? [{ name: 'footTooBusy', amount: weights.footTooBusy }] : [];
  const both = manner === 'together' ? [{ name: 'pedalsTogether', amount: weights.pedalsTogether }] : [];
  return {
    letter,
    foot,
    from,
    to,
    at,
    bar,
    beat: beatAt(score.bars[bar]!, at),
    graceNote,
    restores,
    window: {
      after: after === null ? null : { note: after.note.id, onset: after.onset },
      before: before === null ? null : { note: before.note.id, onset: before.onset },
    },
    cost: [...cost, ...hurry, ...both],
  };
};

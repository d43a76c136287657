import { areDeepEqual } from '../../memoize.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { PedalContext } from '../course/foot.ts';
import { areEqualWeights } from '../weights.ts';
import { movesWithin, standsAt } from './changed-plan.ts';
import { type PlannedPart, pinsAt } from './fix-trials.ts';
import { type Span, spanAcross, spanAround } from './passage.ts';

/** Whether the search for fixes of a place finds the same in both parts, given that they ask for the same needs. */
export const isSamePlace = (a: PlannedPart, b: PlannedPart, moment: number): boolean => {
  const { graph } = a.problem.context;
  return isSameAround(a, b, spanAround(graph, moment, moment) ?? spanAcross(graph.moments, moment));
};

/** Whether feet and pins do the same in a span of both parts, given that they ask for the same needs. */
export const isSameAround = (a: PlannedPart, b: PlannedPart, span: Span): boolean => {
  const [contextA, contextB] = [a.problem.context, b.problem.context];
  if (
    contextA.together !== contextB.together ||
    contextA.moments !== contextB.moments ||
    a.prepared.options.crossFeet !== b.prepared.options.crossFeet ||
    !areEqualWeights(contextA.weights, contextB.weights)
  ) {
    return false;
  }
  return (
    areForbiddenAlike(contextA.forbidden, contextB.forbidden, span) &&
    areDeepEqual(movesWithin(a.solution, span), movesWithin(b.solution, span)) &&
    areDeepEqual(pinsAt(a, span, LETTERS), pinsAt(b, span, LETTERS)) &&
    LETTERS.every((letter) => standsAlike(letter, a, b, span))
  );
};

/** Whether a pedal has the same to keep to: where the moves are the same as well, it stands alike up to the end. */
const standsAlike = (letter: Letter, a: PlannedPart, b: PlannedPart, { from, until }: Span): boolean => {
  const [contextA, contextB] = [a.problem.context, b.problem.context];
  if (contextA.idle(letter) !== contextB.idle(letter)) return false;
  if (standsAt(a.solution, letter, from) !== standsAt(b.solution, letter, from)) return false;
  const [pinnedA, pinnedB] = [contextA.pinned(letter), contextB.pinned(letter)];
  if (pinnedA.size === 0 && pinnedB.size === 0) return true;
  for (let at = from; at < until; at += 1) if (pinnedA.get(at) !== pinnedB.get(at)) return false;
  return true;
};

const areForbiddenAlike = (
  a: PedalContext['forbidden'],
  b: PedalContext['forbidden'],
  { from, until }: Span,
): boolean => {
  if (a.size === 0 && b.size === 0) return true;
  for (let at = from; at < until; at += 1) if (a.has(at) !== b.has(at)) return false;
  return true;
};

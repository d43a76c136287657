import { settingFrom } from '../harp/setting.ts';
import type { Score } from '../score/model.ts';
import { crossFeet } from './crossing.ts';
import { findingsOf } from './findings.ts';
import type { PlacedMove } from './foot.ts';
import { spellFreely } from './free-spelling.ts';
import type { Move, Plan } from './model.ts';
import { beatAt } from './moments.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from './options.ts';
import { type FeetProblem, type PreparedScore, poseProblem, prepareScore } from './prepared.ts';
import { type Solution, solveFeet } from './solve.ts';
import { suggestSpellings } from './suggestions.ts';
import { summarise } from './summary.ts';
import { tuneFixedStrings } from './tuning.ts';

/**
 * Plans the pedals of a part: markings that hold on every pass, with the fewest unmet needs, then the fewest moves
 * without time, then the fewest moves, then the best moments for them.
 *
 * Exact for each foot (see `findFootCourse`); the feet do not hinder each other. What cannot be served or done in time
 * is still planned, at the least cost, and becomes a finding with the smallest change that would mend it.
 */
export const planPedals = (score: Score, options: PlanOptions = DEFAULT_OPTIONS): Plan => {
  const prepared = prepareScore(score, options);
  const written = poseProblem(prepared, new Map());
  const problem =
    options.spelling === 'free' ? poseProblem(prepared, spellFreely(prepared, written)) : written;
  const solved = solveFeet(problem.needs, problem.stage);
  const solution = options.crossFeet ? crossFeet(solved, problem.stage) : solved;
  const fixed = tuneFixedStrings(problem.listed.onFixedStrings, options.profile);
  const findings = findingsOf({ prepared, problem, solution, fixed });
  return {
    initial: settingFrom((letter) => solution.initial.get(letter)!),
    moves: solution.moves.map((move) => describeMove(move, prepared)),
    findings,
    respellings: problem.listed.respellings,
    suggestions: suggestionsFor(prepared, problem, solution),
    tunings: fixed.tunings,
    summary: summarise(problem, solution, findings),
  };
};

const suggestionsFor = (prepared: PreparedScore, written: FeetProblem, solution: Solution) =>
  prepared.options.spelling === 'suggest' ? suggestSpellings(prepared, written, solution) : [];

const describeMove = (move: PlacedMove, { score, moments, options: { weights } }: PreparedScore): Move => {
  const { letter, foot, from, to, after, before, restores, manner, cost } = move;
  const { at, bar, graceNote } = moments.all[move.moment]!;
  const extra = {
    alone: [],
    crossed: [],
    together: [{ name: 'pedalsTogether', amount: weights.pedalsTogether }],
    'too-soon': [{ name: 'footTooBusy', amount: weights.footTooBusy }],
  }[manner];
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
    cost: [...cost, ...extra],
  };
};

import { handFindings } from '../findings/hand-findings.ts';
import { settingFrom } from '../harp/setting.ts';
import type { Score } from '../score/model.ts';
import { beatAt } from '../time/moments.ts';
import { crossFeet } from './course/crossing.ts';
import type { PlacedMove } from './course/foot.ts';
import { type Solution, solveFeet } from './course/solve.ts';
import { findingsOf } from './findings/findings.ts';
import { findMends } from './findings/mending.ts';
import { tuneFixedStrings } from './fixed-string-tuning.ts';
import type { Move, Plan } from './model.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from './options.ts';
import { askNeeds, type FeetProblem, type PreparedScore, poseProblem, prepareScore } from './prepared.ts';
import { spellFreely } from './spelling/free-spelling.ts';
import { suggestSpellings } from './spelling/suggestions.ts';
import { summarise } from './summary.ts';

/**
 * Plans the pedals of a part: markings that hold on every pass, with the fewest unmet needs, then the fewest moves
 * without time, then the fewest moves, then the best moments for them.
 *
 * Exact for each foot where `summary.proved` says so (see `findFootCourse`); the feet do not hinder each other. What cannot be served or done in time
 * is still planned, at the least cost, and becomes a finding with the smallest change that would mend it.
 */
export const planPedals = (score: Score, options: PlanOptions = DEFAULT_OPTIONS): Plan =>
  planPrepared(prepareScore(score, options), {
    askNeeds,
    spellFreely,
    solveFeet,
    findMends,
    handFindings,
  });

/** The costly steps of planning; each may answer from memory where it was asked the same before. */
export interface PlanSteps {
  readonly askNeeds: typeof askNeeds;
  readonly spellFreely: typeof spellFreely;
  readonly solveFeet: (...asked: [FeetProblem['needs'], FeetProblem['stage']]) => Solution;
  readonly findMends: typeof findMends;
  readonly handFindings: typeof handFindings;
}

export const planPrepared = (prepared: PreparedScore, steps: PlanSteps): Plan => {
  const { score, options } = prepared;
  const written = poseProblem(prepared, new Map(), steps.askNeeds);
  const problem =
    options.spelling === 'free'
      ? poseProblem(prepared, steps.spellFreely(prepared, written), steps.askNeeds)
      : written;
  const solved = steps.solveFeet(problem.needs, problem.stage);
  const solution = options.crossFeet ? crossFeet(solved, problem.stage) : solved;
  const fixed = tuneFixedStrings(problem.listed.onFixedStrings, options.profile);
  const { findMends, handFindings } = steps;
  const findings = findingsOf({ prepared, problem, solution, fixed, findMends, handFindings });
  return {
    initial: settingFrom((letter) => solution.initial.get(letter)!),
    moves: solution.moves.map((move) => describeMove(move, prepared)),
    findings,
    respellings: problem.listed.respellings,
    leftOut: listLeftOut(score, options.leftOut),
    suggestions:
      options.spelling === 'suggest'
        ? suggestSpellings(prepared, problem, solution, steps.spellFreely(prepared, problem))
        : [],
    tunings: fixed.tunings,
    footRestSeconds: options.weights.footRestSeconds,
    summary: summarise(problem, solution, findings),
  };
};

/** What is tied to a note that is left out does not sound either. */
const listLeftOut = (score: Score, chosen: ReadonlySet<string>): string[] => {
  const silent = new Set<string>();
  for (const note of score.notes) {
    if (chosen.has(note.id) || (note.tiedFrom !== null && silent.has(note.tiedFrom))) silent.add(note.id);
  }
  return [...silent];
};

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
    cost: [
      ...cost,
      ...extra,
      ...(restores ? [{ name: 'restoring' as const, amount: weights.restoring }] : []),
    ],
  };
};

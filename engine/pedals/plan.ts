import { handFindings } from '../findings/hands/hand-findings.ts';
import { listRetuned } from '../harp/scordatura.ts';
import { settingFrom } from '../harp/setting.ts';
import { type Letter, stepOf } from '../music/pitch.ts';
import { type Rational, rationalKey } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import { listLeftOut } from '../sounding/left-out.ts';
import { toldAtIn } from '../time/told-at.ts';
import { crossFeet } from './course/cross-feet.ts';
import type { SolvedMove } from './course/foot.ts';
import { type PedalSolution, solveFeet } from './course/solve.ts';
import { listPlanFindings } from './findings/findings.ts';
import { tuneFixedStrings } from './fixed-strings.ts';
import { agreeOnFixes } from './fixes/agreeing-fixes.ts';
import { findNoteFixes } from './fixes/note-fixes.ts';
import type { Move, Plan } from './model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from './options.ts';
import {
  buildPedalProblem,
  needsOfSpelling,
  type PedalProblem,
  type PreparedScore,
  prepareScore,
} from './pedal-problem.ts';
import { spellFreely } from './spelling/free-spelling.ts';
import { suggestSpellings } from './spelling/suggestions.ts';
import { minMovesAsWritten, summarise } from './summary.ts';

/**
 * Plans the pedals of a part: markings that hold on every pass, by the order of goals that `weights.ts` states.
 *
 * Exact for each foot where `summary.provenOptimal` says so (see `findFootSchedule`); the feet do not hinder each other. What cannot be served or done in time
 * is still planned, at the least cost, and becomes a finding with the smallest change that would fix it.
 */
export const planPedals = (score: Score, options: PlanOptions = DEFAULT_PLAN_OPTIONS): Plan =>
  planPrepared(prepareScore(score, options), {
    needsOfSpelling,
    spellFreely,
    solveFeet,
    findNoteFixes,
    agreeOnFixes,
    handFindings,
  });

/** The costly steps of planning; each may answer from memory where it was asked the same before. */
export interface PlanSteps {
  readonly needsOfSpelling: typeof needsOfSpelling;
  readonly spellFreely: typeof spellFreely;
  readonly solveFeet: (...asked: [PedalProblem['needs'], PedalProblem['context']]) => PedalSolution;
  readonly findNoteFixes: typeof findNoteFixes;
  readonly agreeOnFixes: typeof agreeOnFixes;
  readonly handFindings: typeof handFindings;
}

export const planPrepared = (prepared: PreparedScore, steps: PlanSteps): Plan => {
  const { score, options } = prepared;
  const written = buildPedalProblem(prepared, new Map(), steps.needsOfSpelling);
  const free = options.spelling === 'free' ? steps.spellFreely(prepared, written) : null;
  const problem = free === null ? written : buildPedalProblem(prepared, free.strings, steps.needsOfSpelling);
  const solved = steps.solveFeet(problem.needs, problem.context);
  const solution = options.crossFeet ? crossFeet(solved, problem.context) : solved;
  const fixed = tuneFixedStrings(problem.listed.onFixedStrings, options.profile);
  const findings = listPlanFindings({ prepared, problem, solution, fixed, ...steps });
  return {
    initial: settingFrom((letter) => solution.initial.get(letter)!),
    moves: solution.moves.map(moveDescriber(prepared)),
    findings,
    respellings: problem.listed.respellings,
    omitted: listLeftOut(score, options.omitted),
    suggestions:
      options.spelling === 'suggest'
        ? suggestSpellings(prepared, problem, solution, steps.spellFreely(prepared, problem).strings)
        : [],
    tunings: fixed.tunings,
    retuned: listRetuned(options.scordatura).toSorted((a, b) => stepOf(a.string) - stepOf(b.string)),
    footRestSeconds: options.weights.footRestSeconds,
    summary: summarise(
      prepared,
      solution,
      findings,
      free?.minMoves(written) ?? minMovesAsWritten(problem, solution),
    ),
  };
};

const moveDescriber = ({ score, moments, pins }: PreparedScore): ((move: SolvedMove) => Move) => {
  const keyOf = (letter: Letter, at: Rational): string => `${letter} ${rationalKey(at)}`;
  const pinnedMoves = new Set(
    pins.flatMap((pin) => (pin.kind === 'move' ? [keyOf(pin.letter, pin.at)] : [])),
  );
  return (move) => {
    const { letter, foot, from, to, after, before, restores, cost } = move;
    const { at, bar, graceNote } = moments.all[move.moment]!;
    const pinned = pinnedMoves.has(keyOf(letter, at));
    const toldAt = toldAtIn(score)({ at, bar, pinned });
    return {
      letter,
      foot,
      from,
      to,
      at,
      bar,
      beat: beatAt(score.bars[bar]!, toldAt),
      pinned,
      graceNote,
      restores,
      window: {
        after: after === null ? null : { note: after.note.id, onset: after.onset },
        before: before === null ? null : { note: before.note.id, onset: before.onset },
      },
      cost,
    };
  };
};

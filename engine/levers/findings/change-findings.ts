import { FAR_AHEAD_SECONDS, SHORTEST_LEAD_SECONDS } from '../../findings/catalogue/levers.ts';
import { describeFinding, type FindingContext } from '../../findings/describe-finding.ts';
import { type Help, help } from '../../findings/help/help.ts';
import type { LeverFinding } from '../../findings/model.ts';
import { openAlter } from '../../harp/open-tuning.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { LeverContext } from '../context.ts';
import { slotOf } from '../course/slots.ts';
import type { LeverSolution, SolvedChange } from '../course/solve.ts';
import type { TuningCost } from '../model.ts';
import type { LeverProblem } from '../problem.ts';

export interface ChangeFacts {
  readonly stage: LeverContext;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
  /** Tunings with fewer stops than this one, the best first. */
  readonly better: readonly SolvedTuningSummary[];
}

/** A tuning that is solved too. */
export interface SolvedTuningSummary {
  readonly cost: Pick<TuningCost, 'tuning' | 'missingNotes'>;
  readonly solution: Pick<LeverSolution, 'changes'>;
  /** Notes that no string gives, and changes for which no hand has time. */
  readonly stops: number;
}

/** What the user should know about one change: whether a hand has time for it, what sounds, what it is for. */
export const changeFindings = (
  { stage: context, problem, solution, better }: ChangeFacts,
  change: SolvedChange,
): LeverFinding[] => {
  const { string, needs } = problem.strings[change.string]!;
  const { bar, at } = context.moments.all[change.moment]!;
  const before = needs.find(({ moment }) => moment >= change.moment)?.need.note;
  const after = needs.findLast(({ moment }) => moment < change.moment)?.need.note;
  const open = openAlter(problem.tuning, string);
  const pitch = { ...string, alter: open + change.to };
  /** What the string gives with its lever the other way. */
  const elsewhere = { ...string, alter: open + 1 - change.to };
  const terms = solution.prices
    .termsAt(change.string, slotOf(change.moment, change.hand), change.onlyAt)
    .map(({ name }) => name);
  const place = { bar, at };
  const made = before === undefined ? [] : [before];
  const about = { pitch, terms, context: { notes: made, place } };
  return [
    ...mannerFindings(change, about, context, adviseTuning(better[0])),
    ...(terms.includes('stringSounding')
      ? [
          describeFinding(
            context.score,
            'ringing-string-moved',
            { harp: 'lever', pitch },
            {
              notes: after === undefined ? made : [after, ...made],
              place,
              help: [help('damp-string', {})],
            },
          ),
        ]
      : []),
    ...leadFindings(
      change,
      about,
      context,
      solution.prices.leadAt(change.string, change.moment, change.onlyAt),
    ),
    ...(change.restores
      ? [describeFinding(context.score, 'lever-restored', { pitch, elsewhere }, about.context)]
      : []),
  ];
};

/** Whether the change is only just before its note, or long before: where a hand has time for it at all. */
const leadFindings = (
  { manner, hand }: SolvedChange,
  { pitch, context }: AboutChange,
  { score }: LeverContext,
  seconds: number,
): LeverFinding[] => {
  if (manner === 'no-free-hand' || manner === 'too-soon' || !Number.isFinite(seconds)) return [];
  const facts = { pitch, hand, seconds };
  if (seconds < SHORTEST_LEAD_SECONDS) {
    return [
      describeFinding(score, 'lever-short-lead', facts, {
        ...context,
        help: [help('more-time-for-lever', {})],
      }),
    ];
  }
  return seconds > FAR_AHEAD_SECONDS ? [describeFinding(score, 'lever-far-ahead', facts, context)] : [];
};

interface AboutChange {
  /** What the string gives then. */
  readonly pitch: Pitch;
  /** What speaks against the moment, by name. */
  readonly terms: readonly string[];
  readonly context: FindingContext;
}

const mannerFindings = (
  { manner, hand }: SolvedChange,
  { pitch, terms, context }: AboutChange,
  { options, score }: LeverContext,
  otherTuning: readonly Help[],
): LeverFinding[] => {
  const contextWith = (...all: readonly Help[]): FindingContext => ({ ...context, help: all });
  switch (manner) {
    case 'alone':
      return [];
    case 'too-soon': {
      const advice = help('more-time-or-leave-out', {});
      return [describeFinding(score, 'hand-too-busy', { pitch }, contextWith(...otherTuning, advice))];
    }
    case 'no-free-hand': {
      const why = terms.includes('noFreeHand') ? 'hands-play' : 'string-plucked';
      const advice = help('rest-before-note', { seconds: options.leverSeconds });
      return [describeFinding(score, 'no-free-hand', { pitch, why }, contextWith(...otherTuning, advice))];
    }
    case 'lent': {
      const advice = help('rest-for-hand', { hand: hand === 'right' ? 'left' : 'right' });
      return [describeFinding(score, 'other-hand-taken', { pitch, hand }, contextWith(advice))];
    }
  }
};

/** @param best a tuning with fewer stops, if there is any: it helps here for certain where it has none */
const adviseTuning = (best: SolvedTuningSummary | undefined): readonly Help[] =>
  best === undefined || best.stops > 0
    ? []
    : [help('tune-instead', { tuning: best.cost.tuning, changes: best.solution.changes.length })];

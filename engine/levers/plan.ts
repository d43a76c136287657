import { gradePart } from '../difficulty/grade-part.ts';
import { playability } from '../findings/count-places.ts';
import type { LeverFinding } from '../findings/model.ts';
import { type OpenTuning, openAlter } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { stepOf } from '../music/pitch.ts';
import { equals, type Rational } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { listLeftOut } from '../sounding/left-out.ts';
import { lastPlayedBefore } from '../time/last-played.ts';
import { toldAtIn } from '../time/told-at.ts';
import type { CostTerm, MoveWindow } from '../time/window.ts';
import { type LeverContext, prepareLevers } from './context.ts';
import { slotOf } from './course/slots.ts';
import type { LeverSolution, SolvedChange } from './course/solve.ts';
import { leverFindings } from './findings/findings.ts';
import type { LeverMove, LeverPlan, LeverSetting, LeverSummary } from './model.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from './options.ts';
import { countLeastChanges, type LeverProblem } from './problem.ts';
import { listRespellings, type PlacedLeverNeed } from './strings/strings.ts';
import { chooseTuning, OTHER_TUNINGS_LISTED } from './tuning/choose-tuning.ts';

/**
 * Plans the levers of a part: the tuning of the open strings, the levers that are up at the start, and every change,
 * with the fewest notes that no string gives, then the fewest changes without time, then the fewest changes while the
 * string sounds, then the fewest changes, then the best moments for them. Which tuning that is in, `chooseTuning` says.
 *
 * Exact where `summary.provenOptimal` says so (see `findLeverSchedule`). What cannot be served or done in time is still planned,
 * at the least cost, and becomes a finding.
 */
export const planLevers = (score: Score, options: LeverOptions = DEFAULT_LEVER_OPTIONS): LeverPlan => {
  const context = prepareLevers(score, options);
  const { chosen, tunings, better, allTried } = chooseTuning(context);
  const { problem, solution } = chosen;
  const findings = leverFindings({ stage: context, problem, solution, better, allTried });
  return {
    tuning: problem.tuning,
    initial: initialLevers(problem, solution),
    played: problem.strings.map(({ string }) => string),
    moves: solution.changes.map((change) => describeMove(change, context, problem, solution)),
    findings,
    respellings: listRespellings(problem.chosen),
    omitted: listLeftOut(score, options.omitted),
    tunings: tunings.slice(0, OTHER_TUNINGS_LISTED + 1),
    summary: summarise(chosen, findings, context, allTried),
  };
};

const initialLevers = ({ strings }: LeverProblem, { isUpAtStart }: LeverSolution): LeverSetting =>
  strings.filter((_, i) => isUpAtStart[i]).map(({ string }) => string);

/** What a string gives with its lever in a position, in semitones above the natural of its letter. */
const alterWith = (tuning: OpenTuning, string: HarpString, position: 0 | 1): number =>
  openAlter(tuning, string) + position;

const describeMove = (
  change: SolvedChange,
  context: LeverContext,
  { tuning, strings }: LeverProblem,
  { prices }: LeverSolution,
): LeverMove => {
  const { score, moments, options } = context;
  const { at, bar, graceNote } = moments.all[change.moment]!;
  const { string, needs } = strings[change.string]!;
  const pinned = options.pins.some(
    (pin) => pin.kind === 'lever-move' && stepOf(pin.string) === stepOf(string) && equals(pin.at, at),
  );
  const toldAt = toldAtIn(score)({ at, bar, pinned });
  return {
    string,
    to: change.to === 1 ? 'up' : 'down',
    alter: alterWith(tuning, string, change.to),
    at,
    bar,
    beat: beatAt(score.bars[bar]!, toldAt),
    pinned,
    graceNote,
    hand: change.hand,
    restores: change.restores,
    onlyAt: change.onlyAt,
    window: windowOf(needs, change, context.graph),
    handAway: isInTime(change) ? context.handAwayAt(change.hand, change.moment) : null,
    cost: [
      ...prices.termsAt(change.string, slotOf(change.moment, change.hand), change.onlyAt),
      ...mannerTerms(change, context),
    ],
  };
};

const isInTime = ({ manner }: SolvedChange): boolean => manner === 'alone' || manner === 'lent';

const mannerTerms = (change: SolvedChange, { weights }: LeverContext): CostTerm[] =>
  change.manner === 'too-soon' ? [{ name: 'handTooBusy', amount: weights.noTime }] : [];

/** The last note of the old position that is played before a change, and in printed order the first of the new one from it on. */
const needsAround = (
  needs: readonly PlacedLeverNeed[],
  { moment, to }: Pick<SolvedChange, 'moment' | 'to'>,
  graph: LeverContext['graph'],
): { readonly after: PlacedLeverNeed | null; readonly before: PlacedLeverNeed | null } => ({
  after: lastPlayedBefore(needs, moment, graph, ({ need }) => need.position !== to),
  before: needs.find((each) => each.moment >= moment && each.need.position === to) ?? null,
});

const windowOf = (
  needs: readonly PlacedLeverNeed[],
  change: SolvedChange,
  graph: LeverContext['graph'],
): MoveWindow => {
  const { after, before } = needsAround(needs, change, graph);
  return { after: placeOf(after?.need), before: placeOf(before?.need) };
};

const placeOf = (need: { readonly note: Note; readonly onset: Rational } | undefined): MoveWindow['after'] =>
  need === undefined ? null : { note: need.note.id, onset: need.onset };

const timeChange = (
  change: SolvedChange,
  { moments, graph }: LeverContext,
  { strings }: LeverProblem,
  { prices }: LeverSolution,
) => {
  const { bar, seconds } = moments.all[change.moment]!;
  const { before } = needsAround(strings[change.string]!.needs, change, graph);
  const terms = prices.termsAt(change.string, slotOf(change.moment, change.hand), change.onlyAt);
  return {
    side: change.hand,
    bar,
    seconds,
    atThePluck: before !== null && before.moment === change.moment,
    bendsString: terms.some(({ name }) => name === 'stringSounding'),
    onlyAt: change.onlyAt,
  };
};

const summarise = (
  { problem, solution }: { readonly problem: LeverProblem; readonly solution: LeverSolution },
  findings: readonly LeverFinding[],
  context: LeverContext,
  allTuningsTried: boolean,
): LeverSummary => {
  const { changes, provenOptimal, isUpAtStart } = solution;
  const { moments, score, secondsAt, options } = context;
  const byBar = new Map<number, number>();
  const played = changes.filter(({ moment }) => moments.all[moment]!.pause === null);
  for (const { moment } of played) {
    const { bar } = moments.all[moment]!;
    byBar.set(bar, (byBar.get(bar) ?? 0) + 1);
  }
  const busiest = [...byBar].reduce<[number, number] | null>(
    (most, each) => (most === null || each[1] > most[1] ? each : most),
    null,
  );
  return {
    changes: changes.length,
    minChanges: countLeastChanges(problem.subproblems),
    leversUp: isUpAtStart.filter(Boolean).length,
    busiest: busiest === null ? null : { bar: busiest[0], changesInBar: busiest[1] },
    ...playability(findings),
    difficulty: gradePart({
      harp: 'lever',
      score,
      secondsAt,
      changes: played.map((change) => timeChange(change, context, problem, solution)),
      findings,
      omitted: options.omitted,
    }),
    provenOptimal,
    allTuningsTried,
  };
};

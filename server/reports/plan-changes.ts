import { type FollowedBars, namePlaceInBar } from '../../engine/index.ts';
import type { LeverPlanReport } from '../api/answers/lever-report.ts';
import type { PlanReport } from '../api/answers/report.ts';
import { describeFindingChanges, type ReportedFinding } from './finding-changes.ts';
import { without } from './without.ts';

/** Of the report of a plan, what changes are told of. */
export type ComparedReport =
  | Pick<PlanReport, 'harp' | 'setting' | 'moves' | 'findings'>
  | Pick<LeverPlanReport, 'harp' | 'tuning' | 'moves' | 'findings'>;

interface PlacedChange {
  readonly change: string;
  readonly barName: string;
  readonly barIndex: number;
  readonly beat: string;
}

/** A move that is farther away is another one. */
const SAME_WITHIN_BARS = 4;

const placeOf = ({ barName, beat }: PlacedChange): string => namePlaceInBar(barName, beat);

const keyOf = ({ change, barIndex, beat }: PlacedChange): string => `${change} ${barIndex} ${beat}`;

const describeMoves = (
  before: readonly PlacedChange[],
  after: readonly PlacedChange[],
): readonly string[] => {
  const added = [...without(after, before, keyOf)];
  const told = without(before, after, keyOf).map((gone) => {
    const same = added
      .filter(({ change }) => change === gone.change)
      .map((each) => ({ each, apart: Math.abs(each.barIndex - gone.barIndex) }))
      .filter(({ apart }) => apart <= SAME_WITHIN_BARS)
      .sort((a, b) => a.apart - b.apart)[0]?.each;
    if (same === undefined) return `gone: ${gone.change}, ${placeOf(gone)}`;
    added.splice(added.indexOf(same), 1);
    return `moved: ${gone.change}, from ${placeOf(gone)} to ${placeOf(same)}`;
  });
  return [...told, ...added.map((each) => `added: ${each.change}, ${placeOf(each)}`)];
};

const beginningOf = (report: ComparedReport): string =>
  report.harp === 'pedal' ? report.setting : `tuned in ${report.tuning}`;

/**
 * What is otherwise in a new plan, a sentence each; empty where nothing is.
 *
 * @param bars where the bars of the one before went: what went along with its bar is where it was; null where that is not known
 */
export const describeChanges = (
  before: ComparedReport,
  after: ComparedReport,
  bars: FollowedBars | null,
): readonly string[] => {
  const follow = <T extends { readonly barIndex: number }>(list: readonly T[]): readonly T[] =>
    list.map((each) => ({ ...each, barIndex: bars?.to[each.barIndex] ?? each.barIndex }));
  const findings = follow<ReportedFinding>(before.findings).map((finding) => ({
    ...finding,
    places: follow(finding.places),
  }));
  return [
    ...(beginningOf(before) === beginningOf(after) ? [] : [`starts with: ${beginningOf(after)}`]),
    ...describeMoves(follow<PlacedChange>(before.moves), after.moves),
    ...describeFindingChanges(findings, after.findings, bars !== null),
  ];
};

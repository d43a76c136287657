import { group } from 'd3-array';
import { FINDINGS, type FindingCode, nameExtent } from '../../engine/index.ts';
import type { LeverPlanReport } from '../api/answers/lever-report.ts';
import type { PlanReport } from '../api/answers/report.ts';
import { nameSeverity } from './name-severity.ts';
import { without } from './without.ts';

/** A finding of a report of either harp. */
export type ReportedFinding = (PlanReport | LeverPlanReport)['findings'][number];

type FindingPlace = ReportedFinding['places'][number];

/** A place of a finding, by itself. */
interface Fault {
  readonly finding: ReportedFinding;
  readonly place: FindingPlace;
}

const passageOf = ({ code }: ReportedFinding) => FINDINGS[code satisfies FindingCode].passage;

/** A stretch is one thing with all its moves: it is nothing that is told of each of several places. */
const isStretch = (finding: ReportedFinding): boolean =>
  finding.places.length > 1 && passageOf(finding) === undefined;

const faultsOf = (findings: readonly ReportedFinding[]): readonly Fault[] =>
  findings.flatMap((finding) =>
    isStretch(finding)
      ? [{ finding, place: { ...finding.places[0]!, sentence: finding.sentence } }]
      : finding.places.map((place) => ({ finding, place })),
  );

/** What a plan tells that the other does not, by places. */
const faultsBeside = (
  findings: readonly ReportedFinding[],
  others: readonly ReportedFinding[],
  areBarsKnown: boolean,
): readonly Fault[] => {
  const kind = ({ finding, place }: Fault): string => `${finding.code}\n${place.sentence}`;
  const exact = (fault: Fault): string => `${kind(fault)}\n${fault.place.barIndex} ${fault.place.beat}`;
  // What only stands elsewhere, since something came in before it, is the same.
  const loose = (fault: Fault): string =>
    areBarsKnown ? `${kind(fault)}\n${fault.place.barIndex}` : kind(fault);
  const [here, there] = [faultsOf(findings), faultsOf(others)];
  return without(without(here, there, exact), without(there, here, exact), loose);
};

/** Several places of one finding in the words of all of them. */
const describePlaces = (finding: ReportedFinding, places: readonly FindingPlace[]): string => {
  const [first, last] = [places[0]!, places.at(-1)!];
  const passage = passageOf(finding);
  const isGuessed = passage?.(finding.places.length, true) === finding.sentence;
  const extent = {
    from: first.barName,
    until: last.barName,
    beat: first.beat,
    places: places.length,
    notes: new Set(places.flatMap(({ notes }) => notes)).size,
  };
  const sentence =
    places.length === 1 || passage === undefined ? first.sentence : passage(places.length, isGuessed);
  return `${nameSeverity(finding.severity)}: ${nameExtent(extent)}: ${sentence}`;
};

/** Faults in words, those of one finding together. @param wordFor what each is told as; null where it is not told */
const describeFaults = (
  faults: readonly Fault[],
  wordFor: (finding: ReportedFinding) => string | null,
): readonly string[] =>
  [...group(faults, ({ finding }) => finding)].flatMap(([finding, own]) => {
    const word = wordFor(finding);
    const places = isStretch(finding)
      ? finding.places.map((each) => ({ ...each, sentence: finding.sentence }))
      : own.map(({ place }) => place);
    return word === null ? [] : [`${word}: ${describePlaces(finding, places)}`];
  });

/** Whether a finding goes over a bar of another. */
const meet = (one: ReportedFinding, other: ReportedFinding): boolean =>
  one.places[0]!.barIndex <= other.places.at(-1)!.barIndex &&
  other.places[0]!.barIndex <= one.places.at(-1)!.barIndex;

/** Whether a plan tells a stretch of this kind where this one is, longer or shorter. */
const goesOn = (finding: ReportedFinding, others: readonly ReportedFinding[]): boolean =>
  isStretch(finding) && others.some((other) => other.code === finding.code && meet(finding, other));

/**
 * Whether a plan keeps a finding to itself: as long as something cannot be played there, it does not tell what is awkward
 * or risky in the same bars.
 */
const isHidden = (finding: ReportedFinding, plan: readonly ReportedFinding[]): boolean =>
  finding.severity !== 'stop' && plan.some((other) => other.severity === 'stop' && meet(finding, other));

/**
 * What became of the findings of a plan in the next, place by place, those of one finding in one sentence. `new` is only
 * what certainly was not there before: `now` begins what the plan before may only have kept to itself, and a stretch that
 * became longer or shorter.
 *
 * @param before with the bars where those went
 * @param areBarsKnown whether it is known where they went
 */
export const describeFindingChanges = (
  before: readonly ReportedFinding[],
  after: readonly ReportedFinding[],
  areBarsKnown: boolean,
): readonly string[] => [
  ...describeFaults(faultsBeside(before, after, areBarsKnown), (finding) =>
    goesOn(finding, after) || isHidden(finding, after) ? null : 'solved',
  ),
  ...describeFaults(faultsBeside(after, before, areBarsKnown), (finding) =>
    goesOn(finding, before) || isHidden(finding, before) ? 'now' : 'new',
  ),
];

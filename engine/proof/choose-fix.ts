import type { Letter } from '../music/pitch.ts';
import type { NeedFault } from './marking-playback.ts';
import type { MarkingFix } from './model.ts';
import { addedFaults, type TrialOutcome, type Trials } from './trials.ts';

/** What is to be fixed, and what may be tried. */
export interface FixSearch {
  /** The pedal that all candidates change; null where they change several. */
  readonly letter: Letter | null;
  /** Keys of the faults to be rid of. */
  readonly faultsToFix: readonly string[];
  /** Changes to be made together; those that are alike good are taken in this order. */
  readonly candidates: readonly (readonly MarkingFix[])[];
  /** Further changes that would rid of a fault that a candidate leaves or brings. */
  readonly addFor: (fault: NeedFault) => readonly MarkingFix[];
}

interface Tried {
  readonly fixes: readonly MarkingFix[];
  readonly added: readonly string[];
  readonly left: readonly string[];
  readonly outcome: TrialOutcome;
}

/**
 * The best of the changes: none leaves a fault that was not there before. It rids of as many of the faults as it can,
 * with as few changes as it can, and leaves as few markings needless as it can.
 *
 * Each candidate is proved by playing the part with it. Where none is whole, one more change is tried beside each; the
 * first of the two is then one that leaves no new fault when it is made alone.
 *
 * @returns the changes in the order they may be made; none where nothing fixes it
 */
export const chooseFix = (search: FixSearch, trials: Trials): readonly MarkingFix[] => {
  const before = trials.before(search.letter);
  const faultsToFix = search.faultsToFix.filter((key) => before.faults.has(key));
  if (faultsToFix.length === 0) return [];
  const attempt: Attempt = (fixes) => {
    const outcome = trials.after(fixes, search.letter);
    if (outcome === null) return null;
    const left = faultsToFix.filter((key) => outcome.faults.has(key));
    return { fixes, added: addedFaults(before, outcome), left, outcome };
  };
  const isBest = (each: Tried): boolean => isWhole(each) && each.outcome.redundant <= before.redundant;
  const isUseful = (each: Tried): boolean => each.added.length === 0 && each.left.length < faultsToFix.length;
  const isEnough = (each: Tried): boolean => each.fixes.length === 1 && isBest(each);
  const tried = tryUntil(search.candidates, attempt, isEnough);
  const last = tried.at(-1);
  if (last !== undefined && isEnough(last)) return last.fixes;
  const useful = tried.filter(isUseful);
  const nearest = tried.toSorted(compareNearness).slice(0, MOST_WIDENED);
  const wider = useful.some(isWhole) ? [] : nearest.flatMap((each) => widen(each, search));
  const ranked = [...useful, ...tryUntil(wider, attempt, isBest).filter(isUseful)].sort(compareWorth);
  for (const { fixes } of ranked) {
    const ordered = orderFixes(fixes, attempt);
    if (ordered !== null) return ordered;
  }
  return [];
};

/** Plays the part with some changes; null where too much has been tried already. */
type Attempt = (fixes: readonly MarkingFix[]) => Tried | null;

/** What came of the candidates, one after the other, up to the first that is enough. */
const tryUntil = (
  candidates: readonly (readonly MarkingFix[])[],
  attempt: Attempt,
  isEnough: (tried: Tried) => boolean,
): readonly Tried[] => {
  const tried: Tried[] = [];
  for (const fixes of candidates) {
    const result = attempt(fixes);
    if (result === null) break;
    tried.push(result);
    if (isEnough(result)) break;
  }
  return tried;
};

/** Changes in an order in which the first alone leaves no new fault; null where neither does. */
const orderFixes = (fixes: readonly MarkingFix[], attempt: Attempt): readonly MarkingFix[] | null => {
  const [first, ...rest] = fixes;
  if (rest.length === 0) return fixes;
  const orders = [fixes, [...rest, first!]];
  return orders.find(([start]) => attempt([start!])?.added.length === 0) ?? null;
};

/** First what rids of most, then what changes least, then what leaves fewest markings needless. */
const compareWorth = (a: Tried, b: Tried): number =>
  a.left.length - b.left.length ||
  a.fixes.length - b.fixes.length ||
  a.outcome.redundant - b.outcome.redundant;

/** Candidates beside which one more change is tried, and the changes tried beside each. */
const MOST_WIDENED = 4;
const MOST_BESIDES = 3;

/** First what rids of most, then what brings least. */
const compareNearness = (a: Tried, b: Tried): number =>
  a.left.length - b.left.length || a.added.length - b.added.length;

const isWhole = ({ added, left }: Tried): boolean => added.length === 0 && left.length === 0;

/** The changes with one more for the first fault that they bring or leave. */
const widen = (
  { fixes, added, left, outcome }: Tried,
  { addFor }: FixSearch,
): readonly (readonly MarkingFix[])[] => {
  if (fixes.length > 1) return [];
  const fault = outcome.faults.get(added[0] ?? left[0] ?? '') ?? null;
  if (fault === null) return [];
  return addFor(fault)
    .slice(0, MOST_BESIDES)
    .map((fix) => [...fixes, fix]);
};

import type { Letter } from '../music/pitch.ts';
import type { Mend } from './model.ts';
import type { NeedFault } from './played.ts';
import { addedFaults, type Outcome, type Trials } from './trial.ts';

/** What is to be mended, and what may be tried. */
export interface MendSearch {
  /** The pedal that all candidates change; null where they change several. */
  readonly letter: Letter | null;
  /** Keys of the faults to be rid of. */
  readonly cure: readonly string[];
  /** Changes to be made together; those that are alike good are taken in this order. */
  readonly candidates: readonly (readonly Mend[])[];
  /** Further changes that would rid of a fault that a candidate leaves or brings. */
  readonly addFor: (fault: NeedFault) => readonly Mend[];
}

interface Tried {
  readonly mends: readonly Mend[];
  readonly added: readonly string[];
  readonly left: readonly string[];
  readonly outcome: Outcome;
}

/**
 * The best of the changes: none leaves a fault that was not there before. It rids of as many of the faults as it can,
 * with as few changes as it can, and leaves as few markings needless as it can.
 *
 * Each candidate is proved by playing the part with it. Where none is whole, one more change is tried beside each; the
 * first of the two is then one that leaves no new fault when it is made alone.
 *
 * @returns the changes in the order they may be made; none where nothing mends it
 */
export const chooseMend = (search: MendSearch, trials: Trials): readonly Mend[] => {
  const before = trials.before(search.letter);
  const cure = search.cure.filter((key) => before.faults.has(key));
  if (cure.length === 0) return [];
  const attempt: Attempt = (mends) => {
    const outcome = trials.after(mends, search.letter);
    if (outcome === null) return null;
    const left = cure.filter((key) => outcome.faults.has(key));
    return { mends, added: addedFaults(before, outcome), left, outcome };
  };
  const isBest = (each: Tried): boolean => isWhole(each) && each.outcome.needless <= before.needless;
  const isUseful = (each: Tried): boolean => each.added.length === 0 && each.left.length < cure.length;
  const isEnough = (each: Tried): boolean => each.mends.length === 1 && isBest(each);
  const tried = tryUntil(search.candidates, attempt, isEnough);
  const last = tried.at(-1);
  if (last !== undefined && isEnough(last)) return last.mends;
  const useful = tried.filter(isUseful);
  const nearest = tried.toSorted(compareNearness).slice(0, MOST_WIDENED);
  const wider = useful.some(isWhole) ? [] : nearest.flatMap((each) => widen(each, search));
  const ranked = [...useful, ...tryUntil(wider, attempt, isBest).filter(isUseful)].sort(compareWorth);
  for (const { mends } of ranked) {
    const ordered = orderMends(mends, attempt);
    if (ordered !== null) return ordered;
  }
  return [];
};

/** Plays the part with some changes; null where too much has been tried already. */
type Attempt = (mends: readonly Mend[]) => Tried | null;

/** What came of the candidates, one after the other, up to the first that is enough. */
const tryUntil = (
  candidates: readonly (readonly Mend[])[],
  attempt: Attempt,
  isEnough: (tried: Tried) => boolean,
): readonly Tried[] => {
  const tried: Tried[] = [];
  for (const mends of candidates) {
    const result = attempt(mends);
    if (result === null) break;
    tried.push(result);
    if (isEnough(result)) break;
  }
  return tried;
};

/** Changes in an order in which the first alone leaves no new fault; null where neither does. */
const orderMends = (mends: readonly Mend[], attempt: Attempt): readonly Mend[] | null => {
  const [first, ...rest] = mends;
  if (rest.length === 0) return mends;
  const orders = [mends, [...rest, first!]];
  return orders.find(([start]) => attempt([start!])?.added.length === 0) ?? null;
};

/** First what rids of most, then what changes least, then what leaves fewest markings needless. */
const compareWorth = (a: Tried, b: Tried): number =>
  a.left.length - b.left.length || a.mends.length - b.mends.length || a.outcome.needless - b.outcome.needless;

/** Candidates beside which one more change is tried, and the changes tried beside each. */
const MOST_WIDENED = 4;
const MOST_BESIDES = 3;

/** First what rids of most, then what brings least. */
const compareNearness = (a: Tried, b: Tried): number =>
  a.left.length - b.left.length || a.added.length - b.added.length;

const isWhole = ({ added, left }: Tried): boolean => added.length === 0 && left.length === 0;

/** The changes with one more for the first fault that they bring or leave. */
const widen = (
  { mends, added, left, outcome }: Tried,
  { addFor }: MendSearch,
): readonly (readonly Mend[])[] => {
  if (mends.length > 1) return [];
  const fault = outcome.faults.get(added[0] ?? left[0] ?? '') ?? null;
  if (fault === null) return [];
  return addFor(fault)
    .slice(0, MOST_BESIDES)
    .map((mend) => [...mends, mend]);
};

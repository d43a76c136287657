import type { Letter } from '../music/pitch.ts';
import type { Mend } from './model.ts';
import type { NeedFault } from './play.ts';
import type { Outcome, Trials } from './trial.ts';

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
  const attempt = (mends: readonly Mend[]): Tried | null => {
    const outcome = trials.after(mends, search.letter);
    if (outcome === null) return null;
    const added = [...outcome.faults.keys()].filter((key) => !before.faults.has(key));
    return { mends, added, left: cure.filter((key) => outcome.faults.has(key)), outcome };
  };
  const tried: Tried[] = [];
  for (const mends of search.candidates) {
    const result = attempt(mends);
    if (result === null) break;
    tried.push(result);
    if (isWhole(result) && mends.length === 1 && result.outcome.needless <= before.needless) return mends;
  }
  const isHarmless = (mends: readonly Mend[]): boolean => attempt(mends)?.added.length === 0;
  const inOrder = (result: Tried): Tried | null => {
    const [first, ...rest] = result.mends;
    if (rest.length === 0 || isHarmless([first!])) return result;
    const turned = [...rest, first!];
    return isHarmless([turned[0]!]) ? { ...result, mends: turned } : null;
  };
  const isUseful = (each: Tried): boolean => each.added.length === 0 && each.left.length < cure.length;
  const useful = tried.filter(isUseful);
  if (!useful.some(isWhole)) {
    const nearest = tried.toSorted(compareNearness).slice(0, MOST_WIDENED);
    for (const mends of nearest.flatMap((each) => widen(each, search))) {
      const result = attempt(mends);
      if (result === null) break;
      if (!isUseful(result)) continue;
      useful.push(result);
      if (isWhole(result) && result.outcome.needless <= before.needless) break;
    }
  }
  const ranked = useful.sort(
    (a, b) =>
      a.left.length - b.left.length ||
      a.mends.length - b.mends.length ||
      a.outcome.needless - b.outcome.needless,
  );
  for (const each of ranked) {
    const ordered = inOrder(each);
    if (ordered !== null) return ordered.mends;
  }
  return [];
};

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

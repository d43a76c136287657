import { lazy } from '../../memoize.ts';
import type { Letter } from '../../music/pitch.ts';
import { compare, equals } from '../../music/rational.ts';
import {
  type GivenChanges,
  type GivenStatement,
  type LetterEdit,
  NOTHING_GIVEN,
  REPAIR_PRICES,
} from './letter-edits.ts';
import { enterBar, leaveBar } from './letter-jumps.ts';
import {
  type Choice,
  editsOf,
  endCost,
  keepBest,
  keyOf,
  type Place,
  type State,
  UNSET,
} from './letter-states.ts';
import { takeStep } from './letter-step.ts';
import { emptyStep, type LetterTrack, type TrackStep } from './letter-track.ts';
import type { BarPasses } from './passes.ts';

/** The cheapest way to set one pedal right. */
export interface LetterRepair {
  readonly letter: Letter;
  readonly edits: readonly LetterEdit[];
  /** Notes and signs that no marking can serve. */
  readonly unmet: number;
  /** Edits first, then how likely they are. */
  readonly cost: number;
  /** Nothing was left out of the search. */
  readonly exact: boolean;
  /** Made when it is asked for. */
  readonly search: () => LetterSearch;
}

/** What was searched, so that it can be searched again with little changed. */
interface LetterSearch {
  readonly track: LetterTrack;
  readonly passes: readonly BarPasses[];
  readonly given: GivenChanges;
  readonly possible: ReadonlySet<Place>;
  /** The states before each bar. */
  readonly before: readonly (readonly State[])[];
  readonly best: State;
}

/** A marking further than this from its place is one too many there and one left out here. */
const MOST_BARS_MOVED = 4;

/**
 * Finds the edits with which every note finds this pedal, on every pass.
 *
 * A dynamic programme along the printed order: its states are where the pedal stands on each pass of a bar, and at the
 * open end of each jump, so that an edit counts once however often its bar is played; a marking that is moved is taken
 * out at one step and put in at another. Of two states that are alike the cheaper is kept, so that the cheapest end is
 * the best of all. Linear in the steps for parts read straight through.
 */
export const repairLetter = (track: LetterTrack, passes: readonly BarPasses[]): LetterRepair =>
  search(track, passes, NOTHING_GIVEN, null);

/** The same with other changes given. It begins where they differ, and ends where the states are as they were. */
export const repairAgain = (repair: LetterRepair, given: GivenChanges): LetterRepair => {
  const { exact } = repair;
  const known = repair.search();
  const { track, passes } = known;
  const isPossible = given.also.every(({ position }) => known.possible.has(position));
  return search(
    track,
    passes,
    given,
    isPossible ? { known, exact, touched: barsTouched(known, given) } : null,
  );
};

interface Known {
  readonly known: LetterSearch;
  readonly exact: boolean;
  readonly touched: { readonly first: number; readonly last: number };
}

const START: State = { values: [], open: [], tokens: [], idle: false, cost: 0, choices: null };

const search = (
  track: LetterTrack,
  passes: readonly BarPasses[],
  given: GivenChanges,
  again: Known | null,
): LetterRepair => {
  const possible = again?.known.possible ?? positionsIn(track, given.also);
  const first = again?.touched.first ?? 0;
  const before = again === null ? [] : again.known.before.slice(0, first);
  let states = again?.known.before[first] ?? [START];
  let exact = again?.exact ?? true;
  let joined: State | null = null;
  for (let bar = first; bar < track.bars.length; bar += 1) {
    if (again !== null && bar > again.touched.last) joined = joinKnown(states, again.known, bar);
    if (joined !== null) break;
    before.push(states);
    const kept = passBar(states, track, passes, given, [...possible], bar);
    exact &&= kept.exact;
    states = kept.states;
  }
  const best = joined ?? states.reduce((a, b) => (endCost(b) < endCost(a) ? b : a));
  const cost = endCost(best);
  return {
    letter: track.letter,
    edits: editsOf(best.choices),
    unmet: Math.floor(cost / REPAIR_PRICES.unmet),
    cost: cost % REPAIR_PRICES.unmet,
    exact,
    search:
      joined === null
        ? () => ({ track, passes, given, possible, before, best })
        : lazy(() => search(track, passes, given, null).search()),
  };
};

const passBar = (
  before: readonly State[],
  track: LetterTrack,
  passes: readonly BarPasses[],
  given: GivenChanges,
  possible: readonly Place[],
  bar: number,
): { readonly states: readonly State[]; readonly exact: boolean } => {
  let states = before;
  let exact = true;
  const keep = (next: readonly State[]): void => {
    const kept = keepBest(next);
    exact &&= kept.exact;
    states = kept.states;
  };
  const { entries, exits } = passes[bar]!;
  if (entries.length === 0) return { states, exact };
  const isPlain = entries.length === 1 && entries[0]!.from === 'before' && states[0]!.values.length === 1;
  if (!isPlain) keep(states.flatMap((state) => enterBar(state, entries, possible)));
  if (states.some(({ tokens }) => tokens.some((token) => bar - token.bar > MOST_BARS_MOVED)))
    keep(states.map((state) => dropOld(state, bar)));
  for (const step of withGiven(track, bar, given.also))
    keep(states.flatMap((state) => takeStep(state, step, given, track)));
  for (const { pass, jump, leadsBack } of exits)
    keep(states.flatMap((state) => leaveBar(state, pass, jump, leadsBack)));
  return { states, exact };
};

const dropOld = (state: State, bar: number): State => ({
  ...state,
  tokens: state.tokens.filter((token) => bar - token.bar <= MOST_BARS_MOVED),
});

/** The bars between which anything is given that was not, or no longer. */
const barsTouched = ({ track, given: known }: LetterSearch, given: GivenChanges): Known['touched'] => {
  const isOther = <T>(a: readonly T[], b: readonly T[]): readonly T[] => [
    ...a.filter((each) => !b.includes(each)),
    ...b.filter((each) => !a.includes(each)),
  ];
  const without = new Set(isOther(known.without, given.without));
  const bars = isOther(known.also, given.also).map(({ bar }) => bar);
  for (const [bar, steps] of track.bars.entries()) {
    // Where it is printed bears on what may be added there, where it takes effect on what comes of it.
    if (steps.some(({ statements }) => statements.some((each) => without.has(each)))) bars.push(bar);
  }
  bars.push(...[...without].map(({ bar }) => bar));
  return { first: Math.min(...bars, track.bars.length), last: Math.max(...bars, 0) };
};

/**
 * From here on all goes as it is known to, if the states are those that were known, each dearer or cheaper by the same:
 * the best end, with the choices that are known from here on; null where it is not so.
 */
const joinKnown = (states: readonly State[], known: LetterSearch, bar: number): State | null => {
  const there = known.before[bar]!;
  if (states.length !== there.length) return null;
  const costs = new Map(there.map((state) => [keyOf(state), state]));
  const offset = states[0]!.cost - (costs.get(keyOf(states[0]!))?.cost ?? 0);
  if (!states.every((state) => costs.get(keyOf(state))?.cost === state.cost - offset)) return null;
  const later: Choice[] = [];
  const from = new Map(there.map((state) => [state.choices, state]));
  let choice = known.best.choices;
  while (choice !== null && !from.has(choice)) {
    later.push(choice);
    choice = choice.before;
  }
  const start = from.get(choice);
  // Two states may have come by the same choices: then it is not known from which the best goes on.
  if (start === undefined || there.filter(({ choices }) => choices === choice).length > 1) return null;
  const own = states.find((state) => keyOf(state) === keyOf(start))!;
  const choices = later.reduceRight<Choice | null>(
    (behind, { edit }) => ({ edit, before: behind }),
    own.choices,
  );
  return { ...known.best, cost: known.best.cost + offset, choices };
};

/** The steps of a bar, and one more for each place at which something is given and nothing else happens. */
const withGiven = (
  track: LetterTrack,
  bar: number,
  also: readonly GivenStatement[],
): readonly TrackStep[] => {
  const steps = track.bars[bar]!;
  const alone = also.filter((each) => each.bar === bar && !steps.some(({ at }) => equals(at, each.at)));
  if (alone.length === 0) return steps;
  const added = alone.map(({ at }) => emptyStep(track, bar, at));
  return [...steps, ...added].sort((a, b) => compare(a.at, b.at));
};

const positionsIn = ({ bars }: LetterTrack, also: readonly GivenStatement[]): ReadonlySet<Place> => {
  const found = new Set<Place>([UNSET, ...also.map(({ position }) => position)]);
  for (const steps of bars) {
    for (const { needs, graces, statements } of steps) {
      for (const position of [...needs, ...graces, ...statements.map((each) => each.position)])
        found.add(position);
    }
  }
  return found;
};

import { compare, equals } from '../../music/rational.ts';
import {
  type GivenChanges,
  type GivenStatement,
  type LetterRepair,
  NOTHING_GIVEN,
  REPAIR_PRICES,
} from './letter-edits.ts';
import { editsOf, endCost, keepBest, type Place, type State, UNSET } from './letter-states.ts';
import { takeStep } from './letter-step.ts';
import { emptyStep, type LetterTrack, type TrackStep } from './letter-track.ts';
import type { BarPasses, Entry } from './passes.ts';

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
export const repairLetter = (
  track: LetterTrack,
  passes: readonly BarPasses[],
  given: GivenChanges = NOTHING_GIVEN,
): LetterRepair => {
  const possible = positionsIn(track, given.also);
  let states: readonly State[] = [{ values: [], open: [], tokens: [], idle: false, cost: 0, choices: null }];
  let exact = true;
  const keep = (next: readonly State[]): void => {
    const kept = keepBest(next);
    exact &&= kept.exact;
    states = kept.states;
  };
  for (const [bar, steps] of track.bars.entries()) {
    const { entries, exits } = passes[bar]!;
    if (entries.length === 0) continue;
    const isPlain = entries.length === 1 && entries[0]!.from === 'before' && states[0]!.values.length === 1;
    if (!isPlain) keep(states.flatMap((state) => enterBar(state, entries, possible)));
    if (states.some(({ tokens }) => tokens.some((token) => bar - token.bar > MOST_BARS_MOVED)))
      keep(states.map((state) => dropOld(state, bar)));
    for (const step of withGiven(track, bar, steps, given.also))
      keep(states.flatMap((state) => takeStep(state, step, given, track.letter)));
    for (const { pass, jump, leadsBack } of exits) {
      keep(states.flatMap((state) => leaveBar(state, pass, jump, leadsBack)));
    }
  }
  const best = states.reduce((a, b) => (endCost(b) < endCost(a) ? b : a));
  const cost = endCost(best);
  const unmet = Math.floor(cost / REPAIR_PRICES.unmet);
  return {
    letter: track.letter,
    edits: editsOf(best.choices),
    unmet,
    cost: cost % REPAIR_PRICES.unmet,
    exact,
  };
};

/** The steps of a bar, and one more for each place at which something is given and nothing else happens. */
const withGiven = (
  track: LetterTrack,
  bar: number,
  steps: readonly TrackStep[],
  also: readonly GivenStatement[],
): readonly TrackStep[] => {
  const alone = also.filter((each) => each.bar === bar && !steps.some(({ at }) => equals(at, each.at)));
  if (alone.length === 0) return steps;
  const added = alone.map(({ at }) => emptyStep(track, bar, at));
  return [...steps, ...added].sort((a, b) => compare(a.at, b.at));
};

const positionsIn = ({ bars }: LetterTrack, also: readonly GivenStatement[]): readonly Place[] => {
  const found = new Set<Place>([UNSET, ...also.map(({ position }) => position)]);
  for (const steps of bars) {
    for (const { needs, graces, statements } of steps) {
      for (const position of [...needs, ...graces, ...statements.map((each) => each.position)])
        found.add(position);
    }
  }
  return [...found];
};

const enterBar = (state: State, entries: readonly Entry[], possible: readonly Place[]): readonly State[] =>
  entries.reduce<readonly State[]>(
    (found, entry) => found.flatMap((each) => enterPass(state.values, each, entry, possible)),
    [{ ...state, values: [] }],
  );

/** @param left where the pedal stood at the end of the bar before, on each pass of that */
const enterPass = (
  left: readonly Place[],
  state: State,
  entry: Entry,
  possible: readonly Place[],
): readonly State[] => {
  const withValue = (value: Place, open = state.open): State => ({
    ...state,
    values: [...state.values, value],
    open,
  });
  switch (entry.from) {
    case 'start':
      return [withValue(UNSET)];
    case 'before':
      return [withValue(left[entry.pass] ?? UNSET)];
    case 'earlier': {
      const value = state.open.find(([jump]) => jump === entry.jump)?.[1] ?? UNSET;
      return [
        withValue(
          value,
          state.open.filter(([jump]) => jump !== entry.jump),
        ),
      ];
    }
    case 'later':
      return possible.map((value) => withValue(value, [...state.open, [entry.jump, value]]));
  }
};

/** At a jump back it comes out whether what was taken for its landing is so. */
const leaveBar = (state: State, pass: number, jump: number, leadsBack: boolean): readonly State[] => {
  const value = state.values[pass]!;
  if (!leadsBack) return [{ ...state, open: [...state.open, [jump, value]] }];
  const taken = state.open.find(([each]) => each === jump)?.[1];
  return taken === value ? [{ ...state, open: state.open.filter(([each]) => each !== jump) }] : [];
};

const dropOld = (state: State, bar: number): State => ({
  ...state,
  tokens: state.tokens.filter((token) => bar - token.bar <= MOST_BARS_MOVED),
});

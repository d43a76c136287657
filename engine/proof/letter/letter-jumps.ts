import { type Place, type State, UNSET } from './letter-states.ts';
import type { Entry } from './passes.ts';

/** All ways to come into a bar. @param possible where the pedal may stand at a landing from later on */
export const enterBar = (
  state: State,
  entries: readonly Entry[],
  possible: readonly Place[],
): readonly State[] =>
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
export const leaveBar = (state: State, pass: number, jump: number, leadsBack: boolean): readonly State[] => {
  const value = state.values[pass]!;
  if (!leadsBack) return [{ ...state, open: [...state.open, [jump, value]] }];
  const taken = state.open.find(([each]) => each === jump)?.[1];
  return taken === value ? [{ ...state, open: state.open.filter(([each]) => each !== jump) }] : [];
};

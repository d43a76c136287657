import type { Position } from '../../harp/setting.ts';
import { type LetterEdit, REPAIR_PRICES } from './letter-edits.ts';
import type { MarkingWindow, Statement } from './letter-track.ts';

/** The states kept at a step. */
const MOST_STATES = 4000;

export const UNSET = 2;
export type Place = Position | typeof UNSET;

/** A statement that was taken out and may be put in later, or one put in that may be taken out later. */
export type Token =
  | { readonly kind: 'taken'; readonly statement: Statement; readonly bar: number }
  | {
      readonly kind: 'given';
      readonly position: Position;
      readonly window: MarkingWindow;
      readonly bar: number;
    };

export interface Choice {
  readonly edit: LetterEdit;
  readonly before: Choice | null;
}

export interface State {
  /** Where the pedal stands on each pass of the bar. */
  readonly values: readonly Place[];
  /** Where it stands after a jump that is still to come in printed order, or before one that has been. */
  readonly open: readonly (readonly [jump: number, value: Place])[];
  readonly tokens: readonly Token[];
  /** The last change was in words, and no note has needed it yet. */
  readonly idle: boolean;
  readonly cost: number;
  readonly choices: Choice | null;
}

export const endCost = ({ cost, idle }: State): number => cost + (idle ? REPAIR_PRICES.needless : 0);

export const withEdit = (state: State, edit: LetterEdit, price: number): State => ({
  ...state,
  cost: state.cost + price,
  choices: { edit, before: state.choices },
});

/**
 * Of states that are alike the cheapest. One that costs more than the best by the edits that lead anywhere (one, and
 * one for each marking in the hand and each open jump) is never better than going on from the best.
 */
export const keepBest = (
  states: readonly State[],
): { readonly states: readonly State[]; readonly exact: boolean } => {
  if (states.length === 1) return { states, exact: true };
  const least = states.reduce((cost, state) => Math.min(cost, state.cost), Number.POSITIVE_INFINITY);
  const best = new Map<string, State>();
  for (const state of states) {
    const margin = 2 + state.tokens.length + 2 * state.open.length;
    if (state.cost > least + margin * REPAIR_PRICES.edit && state.open.length === 0) continue;
    const key = keyOf(state);
    const known = best.get(key);
    if (known === undefined || state.cost < known.cost) best.set(key, state);
  }
  const kept = [...best.values()];
  if (kept.length <= MOST_STATES) return { states: kept, exact: true };
  return { states: kept.sort((a, b) => a.cost - b.cost).slice(0, MOST_STATES), exact: false };
};

/** What of a state bears on all that comes. */
export const keyOf = ({ values, open, tokens, idle }: State): string =>
  `${values.join()};${
    open.length === 0
      ? ''
      : open
          .map((each) => each.join())
          .sort()
          .join(' ')
  };${tokens.length === 0 ? '' : tokens.map(tokenKey).sort().join(' ')};${idle}`;

const tokenKey = (token: Token): string =>
  token.kind === 'taken' ? `t${token.statement.position}@${token.bar}` : `g${token.position}@${token.bar}`;

/** A move stands for the removal and the addition that it joins. */
export const editsOf = (choices: Choice | null): readonly LetterEdit[] => {
  const edits: LetterEdit[] = [];
  for (let choice = choices; choice !== null; choice = choice.before) edits.push(choice.edit);
  const moves = edits.filter((edit) => edit.kind === 'move');
  const movedStatements = new Set(moves.map(({ statement }) => statement));
  const movedWindows = new Set(moves.map(({ window }) => window));
  return edits
    .filter(
      (edit) =>
        !(edit.kind === 'remove' && movedStatements.has(edit.statement)) &&
        !(edit.kind === 'add' && movedWindows.has(edit.window)),
    )
    .reverse();
};

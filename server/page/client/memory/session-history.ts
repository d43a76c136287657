import type { DecisionHistory } from '../decisions/history/decision-history.ts';
import { workedOn } from './kept-decisions.ts';

/** A score file as it was chosen: choosing it again makes new bytes. */
interface ChosenBytes {
  readonly bytes: Uint8Array;
  readonly part: string | null;
  readonly tune?: string;
  readonly movement?: string;
}

const histories = new WeakMap<Uint8Array, Map<string, DecisionHistory>>();

const keyOf = ({ movement, part, tune }: ChosenBytes): string =>
  JSON.stringify([part, tune, workedOn(movement)]);

/** What was done to a part since its file was chosen; null where nothing was. */
export const recallHistory = (file: ChosenBytes): DecisionHistory | null =>
  histories.get(file.bytes)?.get(keyOf(file)) ?? null;

/** Keeps what was done to a part for when another harp, or another part, is looked at between. */
export const keepHistory = (file: ChosenBytes, history: DecisionHistory): void => {
  const ofFile = histories.get(file.bytes) ?? new Map<string, DecisionHistory>();
  histories.set(file.bytes, ofFile.set(keyOf(file), history));
};

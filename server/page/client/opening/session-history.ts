import type { DecisionHistory } from '../decisions/decision-history.ts';

/** A score file as it was chosen: choosing it again makes new bytes. */
interface ChosenBytes {
  readonly bytes: Uint8Array;
  readonly part: string | null;
}

const histories = new WeakMap<Uint8Array, Map<string | null, DecisionHistory>>();

/** What was done to a part since its file was chosen; null where nothing was. */
export const recallHistory = ({ bytes, part }: ChosenBytes): DecisionHistory | null =>
  histories.get(bytes)?.get(part) ?? null;

/** Keeps what was done to a part for when another harp, or another part, is looked at between. */
export const keepHistory = ({ bytes, part }: ChosenBytes, history: DecisionHistory): void => {
  const ofFile = histories.get(bytes) ?? new Map<string | null, DecisionHistory>();
  histories.set(bytes, ofFile.set(part, history));
};

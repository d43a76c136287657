import type { Severity } from '../../../../engine/index.ts';

/** A finding as far as it tells of a refusal, of either harp. */
interface Told {
  readonly code: string;
  readonly sentence: string;
  readonly severity: Severity;
}

const REFUSALS: ReadonlySet<string> = new Set(['pin-not-honoured', 'lever-pin-not-honoured']);

const refusalsIn = (findings: readonly Told[]): readonly string[] =>
  findings.filter(({ code }) => REFUSALS.has(code)).map(({ sentence }) => sentence);

/** What the planner could not grant of the latest decision, in sentences: what it has told only since. */
export const newRefusals = (before: readonly Told[], after: readonly Told[]): readonly string[] => {
  const known = refusalsIn(before);
  return refusalsIn(after).filter((sentence) => !known.includes(sentence));
};

/** What could not be played by a plan that another has not told, and what it could not grant, in sentences. */
export const newTrouble = (before: readonly Told[], after: readonly Told[]): readonly string[] => {
  const known = new Set(before.map(({ sentence }) => sentence));
  const stops = after.filter(({ severity, sentence }) => severity === 'stop' && !known.has(sentence));
  return [...new Set([...stops.map(({ sentence }) => sentence), ...newRefusals(before, after)])];
};

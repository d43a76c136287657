/** How far a comparison is. */
export interface ComparisonStep {
  readonly done: number;
  /** How many steps there are in all. */
  readonly of: number;
}

/** Something compared step by step: whoever works it out can tell how far it is, or leave it. */
export type Comparing<T> = Generator<ComparisonStep, T, undefined>;

/** Works a comparison out to its end. */
export const finishComparing = <T>(comparing: Comparing<T>): T => {
  let step = comparing.next();
  while (step.done !== true) step = comparing.next();
  return step.value;
};

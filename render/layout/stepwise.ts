/** What is worked out step by step, so that parts of it can be used before it is whole. */
export type Stepwise<Part, Whole> = Generator<Part, Whole, undefined>;

/** Works something out to the end at once. */
export const workOut = <Whole>(steps: Stepwise<unknown, Whole>): Whole => {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};

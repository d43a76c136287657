/** By which key one goes to which of some things in a row, counted from the one that has the focus. */
export type StepKeys = Readonly<Record<string, (at: number, last: number) => number>>;

export const ALONG_ROW: StepKeys = {
  ArrowRight: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  Home: () => 0,
  End: (_at, last) => last,
};

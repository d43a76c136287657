import type { Measures } from '../engine/difficulty/model.ts';

/** The measures of four seconds in which nothing moves. */
export const QUIET_MEASURES: Measures = {
  seconds: 4,
  changes: 0,
  changesPerMinute: 0,
  mostInTenSeconds: 0,
  shortestSpacing: { left: null, right: null },
  atThePluck: 0,
  stringsBent: 0,
  barsOverloaded: { left: 0, right: 0 },
  feetTogether: 0,
  notesPerSecond: 1,
};

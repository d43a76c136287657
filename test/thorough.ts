/**
 * With `TRINGLE_THOROUGH=1` every claim is tried on every real score and on every case; else one that takes long on those that
 * show what it is about, so that all of them are tried in some minutes.
 */
export const isThorough = process.env.TRINGLE_THOROUGH === '1';

/** How many random cases a law is tried on: as many as said where tests are thorough, else a third of them. */
export const cases = (thoroughly: number): number => (isThorough ? thoroughly : Math.ceil(thoroughly / 3));

/** One in so many of a list of like things, the first among them; all where tests are thorough. */
export const oneIn = <T>(many: number, all: readonly T[]): readonly T[] =>
  isThorough ? all : all.filter((_, i) => i % many === 0);

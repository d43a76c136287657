import { listNames } from '../../engine/index.ts';

/** How is told what to tune before a piece. */
export const TUNING_WORDS = {
  withoutDisc: (from: string, to: string) => `${from} to ${to}: this string has no disc.`,
  retunedLetter: (from: string, to: string) => `All ${from} strings to ${to}.`,
  retunedStrings: (from: string, octaves: readonly string[], to: string) =>
    octaves.length === 1
      ? `The ${from} string of octave ${octaves[0]} to ${to}.`
      : `The ${from} strings of octaves ${listNames(octaves)} to ${to}.`,
  nothing: 'Nothing beyond the usual tuning.',
  // Common practice, no source.
  caution: 'Do not raise a string above its usual pitch unless a harp technician agrees.',
} as const;

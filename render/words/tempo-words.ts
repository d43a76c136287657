import { DELAYED, type DelayWords, NO_FASTER } from '../../engine/index.ts';
import type { Language } from './language.ts';

/**
 * What stands over the music before a tempo that a user set. It goes with the score to whatever plans it, which does
 * without the other words.
 */
export const NO_FASTER_IN: Readonly<Record<Language, string>> = {
  english: NO_FASTER,
  german: 'nicht schneller als',
  french: 'pas plus vite que',
  italian: 'non più veloce di',
  spanish: 'no más rápido que',
};

/** What stands over notes that a user has wait. */
export const DELAYED_IN: Readonly<Record<Language, DelayWords>> = {
  english: DELAYED,
  german: (names, beat) => `${names} auf Schlag ${beat}`,
  french: (names, beat) => `${names} au temps ${beat}`,
  italian: (names, beat) => `${names} sul tempo ${beat}`,
  spanish: (names, beat) => `${names} en el tiempo ${beat}`,
};

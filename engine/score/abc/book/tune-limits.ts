import type { Problem } from '../../../problem.ts';
import { ABC_LIMITS } from './tune-book.ts';

/** Voices over each other in one bar; drawing takes no more, either. */
const MOST_OVERLAID = 64;

/**
 * What a tune may ask of the parser: it takes time by the square of the voices of a bar, and of those of a tune.
 *
 * @returns null where it asks for no more than is taken
 */
export const findTuneExcess = (lines: readonly string[]): Problem | null => {
  const music = lines.filter((line) => !line.startsWith('%')).join('\n');
  const voices = new Set([...music.matchAll(/(?:^|\[)V:\s*([^\s\]]+)/gmu)].map(([, name]) => name)).size;
  if (voices > ABC_LIMITS.staves) return excess('staves', ABC_LIMITS.staves, voices);
  const overlaid = music.split('|').reduce((most, bar) => Math.max(most, bar.split('&').length), 0);
  return overlaid > MOST_OVERLAID ? excess('voices', MOST_OVERLAID, overlaid) : null;
};

const excess = (what: 'staves' | 'voices', limit: number, found: number): Problem => ({
  code: 'limit-exceeded',
  what,
  limit,
  found,
});

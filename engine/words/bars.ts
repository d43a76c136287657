import { formatBeatText } from './format-beat.ts';
import { listFirst } from './lists.ts';

/** As many bars as a sentence names. */
const MOST_NAMED = 8;

const nameBar = (number: string): string => (number === '' ? 'a bar without number' : `bar ${number}`);

/** Bars from one to another, by their names: `bar 3`, `bars 3–5`, `bars II 3–5` within one of several movements. */
export const nameBars = (from: string, until: string): string => {
  if (from === until || from === '' || until === '') return nameBar(from);
  const movement = MOVEMENT.exec(from)?.[0] ?? '';
  return `bars ${from}–${until.startsWith(movement) ? until.slice(movement.length) : until}`;
};

/** What a name has before its number where movements are named. */
const MOVEMENT = /^[IVXLC]+ /u;

/** Bars here and there, by their names: `bar 3`, `bars 3, 8 and 12`, `bars 3, 4, … and 5 more`. */
export const listBars = (numbers: readonly string[]): string => {
  const [first = '', ...others] = new Set(numbers);
  return others.length === 0 ? nameBar(first) : `bars ${listFirst([first, ...others], MOST_NAMED)}`;
};

/**
 * A place in words.
 *
 * @param beat an exact fraction, `5/2`
 * @example namePlaceInBar('17', '5/2') // 'bar 17, beat 2½'
 */
export const namePlaceInBar = (bar: string, beat: string): string =>
  `${nameBar(bar)}, beat ${formatBeatText(beat)}`;

import type { OneTime } from '../bars/one-time.ts';

/** In English, German, French, Italian and Spanish, as they are sung and played by (common practice, no source). */
const TIMES: readonly (readonly [OneTime, string])[] = [
  [
    'first',
    '(?:1st|first) time|(?:beim )?(?:1\\.|ersten) mal|(?:la )?(?:1re|1ère|première) fois|(?:la )?(?:1a|1ª|prima) volta|(?:la )?(?:1\\.?ª|primera) vez',
  ],
  [
    'later',
    '(?:2nd|second) time|later times|(?:beim )?(?:2\\.|zweiten) mal|(?:la )?(?:2e|2ème|deuxième|seconde) fois|fois suivantes|(?:la )?(?:2a|2ª|seconda) volta|volte seguenti|(?:la )?(?:2\\.?ª|segunda) vez|veces siguientes',
  ],
];

const ONLY = '(?: only| nur| seulement| solo)?:?';

/**
 * The one time of playing that a text says it is for, and the text with blanks for those words; null where it says none,
 * or more than one.
 *
 * @example takeTime('1st time: C♯5')
 */
export const takeTime = (text: string): { readonly time: OneTime | null; readonly rest: string } => {
  const found = TIMES.flatMap(([time, words]) =>
    [...text.matchAll(new RegExp(`(?<![\\p{L}\\d])(?:${words})${ONLY}(?!\\p{L})`, 'giu'))].map((match) => ({
      time,
      from: match.index,
      length: match[0].length,
    })),
  );
  const [only] = found;
  if (only === undefined || found.length > 1) return { time: null, rest: text };
  const { time, from, length } = only;
  return { time, rest: text.slice(0, from) + ' '.repeat(length) + text.slice(from + length) };
};

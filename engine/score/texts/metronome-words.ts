/**
 * Quarter notes in a note value as words print it: signs of Unicode, those of SMuFL 1.4 (ranges Individual notes and
 * Metronome marks; code points from memory), and the letters at which older music fonts have them (common practice, no
 * source).
 */
const QUARTERS: ReadonlyMap<string, number> = new Map([
  ...[...'\u{1D15D}\uE1D2\uECA2'].map((sign) => [sign, 4] as const),
  ...[...'h\u{1D15E}\uE1D3\uE1D4\uECA3\uECA4'].map((sign) => [sign, 2] as const),
  ...[...'q\u2669\u{1D15F}\uE1D5\uE1D6\uECA5\uECA6'].map((sign) => [sign, 1] as const),
  ...[...'e\u266A\u{1D160}\uE1D7\uE1D8\uECA7\uECA8'].map((sign) => [sign, 1 / 2] as const),
]);

const SIGNS = [...QUARTERS.keys()].join('');

/** A note value, which no word runs into, perhaps with its dot, and how many of it go into a minute. */
const EQUATION = new RegExp(
  `(?<!\\p{L})([${SIGNS}])\\s*([.·\\u{1D16D}\\uE1E7\\uECB7]?)\\s*=\\s*(?:(?:ca?\\.?|circa|env\\.)\\s*)?(\\d{2,3})(?![\\d/])`,
  'u',
);

/** Longer words are no tempo mark. */
const LONGEST = 200;

/**
 * The tempo that words give with a note value, in quarter notes a minute; of a span such as `♩ = 60–66` its first figure.
 * A figure without a note value says no tempo for certain.
 *
 * @returns null where they give none
 * @example tempoInWords('Allegro animato ♩. = 80') // 120
 */
export const tempoInWords = (words: string): number | null => {
  const found = words.length > LONGEST ? null : EQUATION.exec(words);
  if (found === null) return null;
  const [, sign, dot, figure] = found;
  return Number(figure) * QUARTERS.get(sign!)! * (dot === '' ? 1 : 3 / 2);
};

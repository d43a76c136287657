/** What is known of a bar's part in the form. */
export interface BarBounds {
  readonly number: string;
  /** It ends with a final bar line that repeats nothing. */
  readonly isFinal: boolean;
}

/**
 * The bars (indices) at which a movement may begin: the first, and one behind a final bar line whose number starts anew or over
 * which a title stands.
 *
 * @param titled bars over which words stand that look like a title
 */
export const findMovements = (bars: readonly BarBounds[], titled: ReadonlySet<number>): readonly number[] =>
  bars.flatMap(({ number }, bar) => {
    const before = bars[bar - 1];
    if (before === undefined) return [bar];
    return before.isFinal && (titled.has(bar) || startsAnew(number, before.number)) ? [bar] : [];
  });

const startsAnew = (number: string, before: string): boolean =>
  Number.parseInt(number, 10) <= 1 && Number.parseInt(before, 10) > 1;

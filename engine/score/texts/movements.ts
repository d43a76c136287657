/** What is known of a bar's part in the form. */
export interface BarBounds {
  readonly number: string;
  /** The bar line at its end, where that is a double one, or a final one that repeats nothing. */
  readonly end: 'final' | 'double' | null;
}

/**
 * The bars (indices) at which a movement may begin: the first, one behind a final bar line whose number starts anew or over
 * which a title or a new tempo stands, and one behind a double bar line whose number starts anew.
 *
 * @param headed bars over which words stand that look like a title, or a tempo
 */
export const findMovements = (bars: readonly BarBounds[], headed: ReadonlySet<number>): readonly number[] =>
  bars.flatMap(({ number }, bar) => {
    const before = bars[bar - 1];
    if (before === undefined) return [bar];
    if (before.end === null) return [];
    const isHeaded = before.end === 'final' && headed.has(bar);
    return isHeaded || startsAnew(number, before.number) ? [bar] : [];
  });

const startsAnew = (number: string, before: string): boolean =>
  Number.parseInt(number, 10) <= 1 && Number.parseInt(before, 10) > 1;

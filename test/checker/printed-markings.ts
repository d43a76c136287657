/** A pedal marking as it stands on a printed page, read from the SVG alone. */
export interface PrintedMarking {
  readonly kind: string;
  readonly barIndex: number;
  /** Quarter notes from the bar's start. */
  readonly beat: number;
  readonly positions: ReadonlyMap<string, number>;
}

const SIGNS: Readonly<Record<string, number>> = { '♭': -1, '♮': 0, '♯': 1 };

const fraction = (text: string): number => {
  const [num = '0', den = '1'] = text.split('/');
  return Number(num) / Number(den);
};

/** Reads the markings off the pages by their `data-` attributes, in the order in which they stand. */
export const readPrintedMarkings = (pages: readonly string[]): PrintedMarking[] =>
  pages.flatMap((page) =>
    [...page.matchAll(/<g [^>]*class="pedal-marking[^>]*>/g)].map(([tag]) => {
      const attribute = (name: string): string => new RegExp(`${name}="([^"]*)"`).exec(tag)?.[1] ?? '';
      return {
        kind: attribute('data-kind'),
        barIndex: Number(attribute('data-bar-index')),
        beat: fraction(attribute('data-beat')),
        positions: new Map(
          attribute('data-pedals')
            .split(' ')
            .map((change) => [change.slice(0, 1), SIGNS[change.slice(1)] ?? Number.NaN]),
        ),
      };
    }),
  );

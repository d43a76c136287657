import type { Problem } from '../../problem.ts';
import { type NumberedBars, nameBarIn } from '../../words/bar-names.ts';
import { listBars } from '../../words/bars.ts';
import { lineAndColumnAt, type XmlElement } from '../../xml/tree.ts';
import { type Remark, type Remarked, remarkIn } from '../model/remark.ts';

/** What a reading has to say besides its result: remarks for the user, and the first value that made it fail. */
export interface ReadLog {
  /** @param bar its index; null for the whole score */
  readonly remark: (code: Remark['code'], bar: number | null, message: string) => void;
  /** Notes that something was passed over; bars with the same thing are told in one remark. */
  readonly skip: (what: string, bar: number | null) => void;
  /** A value that cannot be meant: the score is refused with its line and column. */
  readonly badValue: (what: string, value: string, element: XmlElement) => void;
  readonly problem: () => Problem | null;
  /** All that was noted, with the names of its bars. */
  readonly remarks: (score: NumberedBars) => readonly Remark[];
}

/** Starts the log of a score whose source is `text`. */
export const openLog = (text: string): ReadLog => {
  const remarks = new Map<string, Remarked>();
  const skipped = new Map<string, Set<number | null>>();
  let problem: Problem | null = null;
  return {
    remark: (code, bar, message) => {
      remarks.set(`${code} ${bar} ${message}`, { code, bar, message });
    },
    skip: (what, bar) => {
      const bars = skipped.get(what) ?? new Set();
      skipped.set(what, bars.add(bar));
    },
    badValue: (what, value, element) => {
      problem ??= {
        code: 'bad-value',
        what,
        value: value.slice(0, 80),
        ...lineAndColumnAt(text, element.span.start),
      };
    },
    problem: () => problem,
    remarks: (score) =>
      [...remarks.values(), ...[...skipped].map(([what, bars]) => skippedRemark(what, [...bars], score))].map(
        (each) => remarkIn(score, each),
      ),
  };
};

const skippedRemark = (what: string, bars: readonly (number | null)[], score: NumberedBars): Remarked => {
  const named = new Set(bars.flatMap((bar) => (bar === null ? [] : nameBarIn(score)(bar))));
  const where = named.size < 2 ? '' : ` (${listBars([...named])})`;
  return { code: 'skipped', bar: bars[0] ?? null, message: `Not read: ${what}${where}.` };
};

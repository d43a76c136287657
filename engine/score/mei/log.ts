import type { Problem } from '../../problem.ts';
import { listBars } from '../../words/bars.ts';
import { lineAndColumnAt, type XmlElement } from '../../xml/tree.ts';
import type { Remark } from '../model/remark.ts';

/** What a reading has to say besides its result: remarks for the user, and the first value that made it fail. */
export interface ReadLog {
  readonly remark: (code: Remark['code'], bar: string, message: string) => void;
  /** Notes that something was passed over; bars with the same thing are told in one remark. */
  readonly skip: (what: string, bar: string) => void;
  /** A value that cannot be meant: the score is refused with its line and column. */
  readonly badValue: (what: string, value: string, element: XmlElement) => void;
  readonly problem: () => Problem | null;
  readonly remarks: () => readonly Remark[];
}

/** Starts the log of a score whose source is `text`. */
export const openLog = (text: string): ReadLog => {
  const remarks = new Map<string, Remark>();
  const skipped = new Map<string, Set<string>>();
  let problem: Problem | null = null;
  return {
    remark: (code, bar, message) => {
      remarks.set(`${code} ${bar} ${message}`, { code, barNumber: bar, message });
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
    remarks: () => [
      ...remarks.values(),
      ...[...skipped].map(([what, bars]) => skippedRemark(what, [...bars])),
    ],
  };
};

const skippedRemark = (what: string, bars: readonly string[]): Remark => {
  const named = bars.filter((bar) => bar !== '');
  const where = named.length < 2 ? '' : ` (${listBars(named)})`;
  return { code: 'skipped', barNumber: bars[0] ?? '', message: `Not read: ${what}${where}.` };
};

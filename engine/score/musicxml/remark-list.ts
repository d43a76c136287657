import { type NumberedBars, nameBarIn } from '../../words/bar-names.ts';
import { listBars } from '../../words/bars.ts';
import { type Remark, remarkIn } from '../model/remark.ts';

/** Gathers remarks; what is met many times becomes one remark that names its bars. */
export class RemarkList {
  readonly #barsOf = new Map<string, { readonly code: Remark['code']; readonly bars: (number | null)[] }>();

  /**
   * @param bar its index; null for the whole score
   * @param what a sentence without its full stop; said twice of one bar, it counts once
   */
  add(code: Remark['code'], bar: number | null, what: string): void {
    const known = this.#barsOf.get(what);
    if (known === undefined) this.#barsOf.set(what, { code, bars: [bar] });
    else if (known.bars.at(-1) !== bar) known.bars.push(bar);
  }

  /** @param what what was passed over, and how it was understood: a sentence without its full stop */
  skip(what: string, bar: number): void {
    this.add('skipped', bar, what);
  }

  /** All of them, with the names of their bars. */
  list(score: NumberedBars): readonly Remark[] {
    const nameBar = nameBarIn(score);
    return [...this.#barsOf].map(([what, { code, bars }]) => {
      const [, ...others] = new Set(bars.flatMap((bar) => (bar === null ? [] : nameBar(bar))));
      const more = others.length > 0 ? ` (also in ${listBars(others)})` : '';
      return remarkIn(score, { code, bar: bars[0]!, message: `${what}${more}.` });
    });
  }
}

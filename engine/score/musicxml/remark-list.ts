import { listBars } from '../../words/bars.ts';
import type { Remark } from '../model/remark.ts';

/** Gathers remarks; what is met many times becomes one remark that names its bars. */
export class RemarkList {
  readonly #barsOf = new Map<string, { readonly code: Remark['code']; readonly bars: string[] }>();

  /** @param what a sentence without its full stop; said twice of one bar, it counts once */
  add(code: Remark['code'], bar: string, what: string): void {
    const known = this.#barsOf.get(what);
    if (known === undefined) this.#barsOf.set(what, { code, bars: [bar] });
    else if (known.bars.at(-1) !== bar) known.bars.push(bar);
  }

  /** @param what what was passed over, and how it was understood: a sentence without its full stop */
  skip(what: string, bar: string): void {
    this.add('skipped', bar, what);
  }

  list(): readonly Remark[] {
    return [...this.#barsOf].map(([what, { code, bars }]) => {
      const more = bars.length > 1 ? ` (also in ${listBars(bars.slice(1))})` : '';
      return { code, barNumber: bars[0]!, message: `${what}${more}.` };
    });
  }
}

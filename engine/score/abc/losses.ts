import { listFirst } from '../../words/lists.ts';
import { type Remark, remarkOnAll } from '../model/remark.ts';

/** The most lines that a remark names. */
const MOST_LINES = 5;

/** What is not carried over from a tune, each kind told once with the lines where it stands. */
export class Losses {
  readonly #lineAt: (char: number) => number;
  readonly #lines = new Map<string, Set<number>>();

  /** @param lineAt the line of the file, from 1, in which a character of the parser's text stands */
  constructor(lineAt: (char: number) => number) {
    this.#lineAt = lineAt;
  }

  /** @param what a whole sentence without its stop, such as `Slides (!slide!) are not printed` */
  at(what: string, char: number | undefined): void {
    this.inLine(what, char === undefined ? null : this.#lineAt(char));
  }

  inLine(what: string, line: number | null): void {
    const lines = this.#lines.get(what) ?? new Set();
    if (line !== null) lines.add(line);
    this.#lines.set(what, lines);
  }

  remarks(): readonly Remark[] {
    return [...this.#lines].map(([what, lines]) =>
      remarkOnAll('skipped', `${what}${nameLines([...lines].sort((a, b) => a - b))}.`),
    );
  }
}

const nameLines = (lines: readonly number[]): string => {
  if (lines.length === 0) return '';
  return ` (${lines.length === 1 ? 'line' : 'lines'} ${listFirst(lines.map(String), MOST_LINES)})`;
};

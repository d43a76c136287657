import { readFileSync } from 'node:fs';

/** How many notes agree, and why the others differ: reason to number of notes, with a first place for each. */
export interface Comparison {
  compared: number;
  agreed: number;
  readonly explained: Map<string, { count: number; first: string }>;
  readonly unexplained: string[];
}

export const startComparison = (): Comparison => ({
  compared: 0,
  agreed: 0,
  explained: new Map(),
  unexplained: [],
});

/** Counts one note: `reason` is null where it agrees and undefined where nothing explains that it does not. */
export const count = (into: Comparison, reason: string | null | undefined, place: string): void => {
  into.compared += 1;
  if (reason === null) into.agreed += 1;
  else if (reason === undefined) into.unexplained.push(place);
  else {
    const known = into.explained.get(reason);
    into.explained.set(reason, { count: (known?.count ?? 0) + 1, first: known?.first ?? place });
  }
};

/** Explained differences as rows of the table, without its last column. */
export const rowsOf = (file: string, oracle: string, { explained }: Comparison): readonly string[] =>
  [...explained].map(([reason, { count: notes }]) => `${file} | ${oracle} | ${reason} | ${notes}`).sort();

const TABLE = new URL('./reading-differences.md', import.meta.url);

/** The rows that reading-differences.md holds for a file and an oracle. */
export const tableRows = (file: string, oracle: string): readonly string[] =>
  readFileSync(TABLE, 'utf8')
    .split('\n')
    .filter((line) => line.startsWith(`| ${file} | ${oracle} |`))
    .map((line) => line.slice(2).split(' | ').slice(0, 4).join(' | '))
    .sort();

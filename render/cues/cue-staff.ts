import { type Note, stepOf } from '../../engine/index.ts';
import { linesAbove, linesBelow } from '../part/signs/clefs.ts';

/** Where a cue stands. */
export interface CueStaff {
  /** `n` of one of the harp's staves. */
  readonly n: string;
  /** A clef for the cue alone; null where that of the staff fits. */
  readonly clef: CueClef | null;
}

export interface CueClef {
  readonly shape: 'G' | 'F';
  readonly line: number;
  /** The step of the lowest line, counted up from C0. */
  readonly lowest: number;
}

const CLEFS: readonly CueClef[] = [
  { shape: 'G', line: 2, lowest: 30 },
  { shape: 'F', line: 4, lowest: 18 },
];

/** From so many ledger lines a note on, the cue gets a clef of its own. */
const MOST_LINES = 1.5;

/** The staff on which a cue needs the fewest ledger lines, with another clef where it needs many on each. */
export const fittingStaff = (
  notes: readonly Note[],
  staves: readonly string[],
  lowestLines: ReadonlyMap<string, number>,
): CueStaff => {
  const steps = notes.map(({ pitch }) => stepOf(pitch));
  const mean = (lowest: number): number =>
    steps.reduce((sum, step) => sum + linesAbove(step, lowest) + linesBelow(step, lowest), 0) / steps.length;
  const byStaff = staves
    .map((n) => ({ n, lines: mean(lowestLines.get(n) ?? CLEFS[0]!.lowest) }))
    .sort((a, b) => a.lines - b.lines);
  const [best] = byStaff;
  if (best!.lines <= MOST_LINES) return { n: best!.n, clef: null };
  const [clef] = [...CLEFS].sort((a, b) => mean(a.lowest) - mean(b.lowest));
  return mean(clef!.lowest) < best!.lines ? { n: best!.n, clef: clef! } : { n: best!.n, clef: null };
};

import { type Note, stepOf } from '../../engine/index.ts';
import { linesAbove, linesBelow } from '../part/signs/clefs.ts';

/** Where a cue stands. */
export interface CueStaff {
  /** `n` of one of the harp's staves. */
  readonly n: string;
  /** The step of the lowest line in the clef of the cue, counted up from C0. */
  readonly lowest: number;
}

/** Clefs by the step of their lowest line: those that music is written in, the usual ones first. */
const CLEFS: ReadonlyMap<number, string> = new Map([
  [30, 'shape="G" line="2"'],
  [18, 'shape="F" line="4"'],
  [24, 'shape="C" line="3"'],
  [22, 'shape="C" line="4"'],
  [37, 'shape="G" line="2" dis="8" dis.place="above"'],
  [23, 'shape="G" line="2" dis="8" dis.place="below"'],
  [11, 'shape="F" line="4" dis="8" dis.place="below"'],
]);

const OWN_CLEFS = [30, 18] as const;

/** @returns nothing for a clef that is in no list */
export const clefElement = (lowest: number): string =>
  CLEFS.has(lowest) ? `<clef ${CLEFS.get(lowest)}/>` : '';

/** From so much effort on, the cue gets a clef of its own. */
const MOST_EFFORT = 2.5;

/** The staff on which a cue needs the fewest ledger lines, with another clef where it needs many on each. */
export const fittingStaff = (
  notes: readonly Note[],
  staves: readonly string[],
  lowestLines: ReadonlyMap<string, number>,
): CueStaff => {
  const steps = notes.map(({ pitch }) => stepOf(pitch));
  const byStaff = staves
    .map((n) => ({ n, lowest: lowestLines.get(n) ?? OWN_CLEFS[0] }))
    .sort((a, b) => effortOf(steps, a.lowest) - effortOf(steps, b.lowest));
  const best = byStaff[0]!;
  if (effortOf(steps, best.lowest) <= MOST_EFFORT) return best;
  const [own] = [...OWN_CLEFS].sort((a, b) => effortOf(steps, a) - effortOf(steps, b));
  return effortOf(steps, own!) < effortOf(steps, best.lowest) ? { n: best.n, lowest: own! } : best;
};

/** Ledger lines a note, and half of those of the note that needs most. */
const effortOf = (steps: readonly number[], lowest: number): number => {
  const lines = steps.map((step) => linesAbove(step, lowest) + linesBelow(step, lowest));
  return lines.reduce((sum, each) => sum + each, 0) / lines.length + Math.max(...lines) / 2;
};

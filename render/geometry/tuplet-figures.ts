import type { Box } from '../text/outline.ts';

/** How far down something would be nearer to what it belongs to, and where it goes from there to be free. */
export interface Nearer {
  readonly down: number;
  readonly direction: -1 | 1;
}

/** A figure farther from its beam than this is taken for that of other notes. */
const FAR_VU = 4;
const BESIDE_BEAM_VU = 0.6;

/**
 * Where the figure of a tuplet without a bracket stands far from its beam, as the layout leaves it with a group that goes
 * through both staves, it comes to the same side of the beam.
 *
 * @returns null where it is near, or has no beam over or under it
 */
export const nearerToBeam = (
  beams: readonly Box[],
  figure: readonly Box[],
  unitsPerVu: number,
): Nearer | null => {
  const own = joined(figure);
  const over = beams.filter((box) => box.x0 < own.x1 && own.x0 < box.x1);
  if (over.length === 0) return null;
  const beam = joined(over);
  const [far, beside] = [FAR_VU * unitsPerVu, BESIDE_BEAM_VU * unitsPerVu];
  if (own.y0 - beam.y1 > far) return { down: beam.y1 + beside - own.y0, direction: 1 };
  if (beam.y0 - own.y1 > far) return { down: beam.y0 - beside - own.y1, direction: -1 };
  return null;
};

const joined = (boxes: readonly Box[]): Box => ({
  x0: Math.min(...boxes.map(({ x0 }) => x0)),
  y0: Math.min(...boxes.map(({ y0 }) => y0)),
  x1: Math.max(...boxes.map(({ x1 }) => x1)),
  y1: Math.max(...boxes.map(({ y1 }) => y1)),
});

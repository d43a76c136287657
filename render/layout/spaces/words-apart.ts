import { moveBox } from '../../geometry/drawn-groups.ts';
import { boxesMeet, widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU } from './overlaps.ts';
import { headAndWords, type PlacedSpace, shiftSpace } from './placed-space.ts';

/** Between words and what they stand under, in vu. */
const CLEARANCE_VU = 0.6;

/** A line with the lower edges of its letters, or of what has no words, on the lowest level of these. */
export const alignHeads = (line: readonly PlacedSpace[], unitsPerVu: number): readonly PlacedSpace[] => {
  const bottomOf = (each: PlacedSpace): number => headAndWords(each, unitsPerVu).head.y1;
  const level = Math.max(...line.map(bottomOf));
  return line.map((each) => shiftSpace(each, 0, level - bottomOf(each)));
};

/**
 * Sets words lower, from left to right, where they would touch letters or words of their line: the letters stay at their
 * beats and on their level.
 */
export const lowerWords = (
  line: readonly PlacedSpace[],
  rightEnd: number,
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const beside = APART_VU.markings * unitsPerVu;
  const gap = CLEARANCE_VU * unitsPerVu;
  const taken = line.map((each) => ({ id: each.room.id, box: headAndWords(each, unitsPerVu).head }));
  const heads = [...taken];
  return line
    .toSorted((a, b) => a.box.x0 - b.box.x0)
    .map((each) => {
      const { head, words: laid } = headAndWords(each, unitsPerVu);
      if (laid === null) return each;
      const others = taken.filter(({ id }) => id !== each.room.id).map(({ box }) => box);
      // No letter stands between another and its words: these begin under their own instead.
      const aside = head.x0 - laid.x0;
      const isBetween = heads.some(
        ({ id, box }) => id !== each.room.id && box.y0 >= head.y1 && boxesMeet(box, widenBox(laid, beside)),
      );
      const wordsAside = isBetween && laid.x1 + aside <= rightEnd ? aside : 0;
      const words = moveBox(laid, { x: wordsAside, y: 0 });
      const down = depthUnder(words, others, { beside, gap });
      taken.push({ id: each.room.id, box: moveBox(words, { x: 0, y: down }) });
      return { ...each, wordsAside, box: { ...each.box, y1: each.box.y1 + down } };
    });
};

/** How far a box goes down until it is clear of all others. */
const depthUnder = (
  box: Box,
  others: readonly Box[],
  { beside, gap }: { readonly beside: number; readonly gap: number },
): number => {
  let down = 0;
  for (;;) {
    const wanted = moveBox(widenBox(box, beside), { x: 0, y: down });
    const met = others.filter((other) => boxesMeet(other, wanted));
    if (met.length === 0) return down;
    down = Math.max(...met.map(({ y1 }) => y1)) + gap - box.y0;
  }
};

import type { Box } from '../../text/outline.ts';

/** A staff of the unbroken line. */
export interface StaffLines {
  readonly top: number;
  readonly bottom: number;
}

/** How far ink reaches, in vu. */
export interface Reach {
  /** Above the highest staff, and below the lowest. */
  readonly above: number;
  readonly below: number;
  /** From the top line of the highest staff to the bottom line of the lowest, as the ink between them needs it. */
  readonly staves: number;
}

/** How far the ink of a long line reaches from its staves, place by place. */
export interface Outline {
  /** @param owner index of the staff that a shape belongs to; null where the nearest is meant */
  readonly claim: (box: Box, owner: number | null) => void;
  /** Something that stands close to the music, however far from it here. */
  readonly claimLevelled: (box: Box) => void;
  /** The reach within a stretch. */
  readonly between: (x0: number, x1: number) => Reach;
}

/** Width of a place: about that of a notehead with its accidental. */
const PLACE_VU = 4;
/** Height of a staff, and the least distance of two of a system. */
const STAFF_VU = 8;
const BETWEEN_STAVES_VU = 12;
/** Height of a dynamic or hairpin with the space round it. */
const LEVELLED_VU = 4;
/** Between what hangs from one staff and what rises from the next. */
const CLEAR_VU = 1;

export const startOutline = (staves: readonly StaffLines[], unitsPerVu: number): Outline => {
  const above = staves.map(() => new Map<number, number>());
  const below = staves.map(() => new Map<number, number>());
  const levelled = staves.map(() => new Set<number>());
  const placeOf = (x: number): number => Math.floor(x / unitsPerVu / PLACE_VU);
  const reach = (side: Map<number, number>, place: number, by: number): void => {
    if (by > (side.get(place) ?? 0)) side.set(place, by);
  };
  const nearest = (y: number): number => {
    const distances = staves.map(({ top, bottom }) => Math.abs(y - (top + bottom) / 2));
    return distances.indexOf(Math.min(...distances));
  };
  const claim: Outline['claim'] = ({ x0, x1, y0, y1 }, owner) => {
    const touched = staves.filter(({ top, bottom }) => y0 <= bottom && y1 >= top).length;
    // What runs from staff to staff says nothing of how far apart they have to be.
    if (touched > 1) return;
    const staff = touched === 1 || owner === null ? nearest((y0 + y1) / 2) : owner;
    const { bottom, top } = staves[staff]!;
    const [from, to] = [placeOf(x0), placeOf(x1)];
    for (let place = from; place <= to; place += 1) {
      reach(above[staff]!, place, (top - y0) / unitsPerVu);
      reach(below[staff]!, place, (y1 - bottom) / unitsPerVu);
    }
  };
  return {
    claim,
    claimLevelled: (box) => {
      const { x0, x1, y0 } = box;
      const staff = staves.findLastIndex(({ bottom }) => bottom <= y0);
      // Over the staves little is brought to one level.
      if (staff < 0) return claim(box, null);
      for (let place = placeOf(x0); place <= placeOf(x1); place += 1) levelled[staff]!.add(place);
    },
    between: (x0, x1) => {
      const first = placeOf(x0);
      const places = Array.from({ length: placeOf(x1) - first + 1 }, (_, i) => first + i);
      return reachIn(places, { above, below, levelled });
    },
  };
};

/** How far each staff's ink reaches, place by place; and where something stands that is brought to one level. */
interface InkOfStaves {
  readonly above: readonly ReadonlyMap<number, number>[];
  readonly below: readonly ReadonlyMap<number, number>[];
  readonly levelled: readonly ReadonlySet<number>[];
}

const reachIn = (places: readonly number[], { above, below, levelled }: InkOfStaves): Reach => {
  const most = (of: (place: number) => number): number => Math.max(0, ...places.map(of));
  const hanging = (staff: number, place: number): number =>
    (below[staff]!.get(place) ?? 0) + (levelled[staff]!.has(place) ? LEVELLED_VU : 0);
  const rising = (staff: number, place: number): number => above[staff]!.get(place) ?? 0;
  const gaps = above
    .slice(1)
    .map((_, i) =>
      Math.max(BETWEEN_STAVES_VU, CLEAR_VU + most((place) => hanging(i, place) + rising(i + 1, place))),
    );
  return {
    above: most((place) => rising(0, place)),
    below: most((place) => hanging(below.length - 1, place)),
    staves: STAFF_VU * above.length + gaps.reduce((sum, gap) => sum + gap, 0),
  };
};

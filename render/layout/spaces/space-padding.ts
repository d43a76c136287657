import { rationalKey } from '../../../engine/index.ts';
import type { MarkingPlacement } from '../../engraving-options.ts';
import type { Overlap } from './overlaps.ts';
import type { BoxSize } from './placeholder.ts';
import { levelOf, type ReservedSpace, sideOf } from './reserve-spaces.ts';
import { clearOfNote } from './stance.ts';

/** Space round a drawing beyond its own box, in vu: what a layout that came out too tight gets in the next pass. */
export interface Pad {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** Pads by the musical place of a room, which stays the same from pass to pass. */
export type Pads = ReadonlyMap<string, Pad>;

const NO_PAD: Pad = { top: 0, bottom: 0, left: 0, right: 0 };

const keyOf = (room: ReservedSpace): string =>
  `${levelOf(room)};${rationalKey(room.at)};${room.graceNote ?? ''}`;

export const padOf = (pads: Pads, room: ReservedSpace): Pad => {
  const pad = pads.get(keyOf(room)) ?? NO_PAD;
  return { ...pad, right: pad.right + clearOfNote(room.stance) };
};

/** The room that the music makes for a drawing. */
export const keptBox = ({ box, keptVu = box.widthVu }: ReservedSpace): BoxSize => ({
  ...box,
  widthVu: Math.min(keptVu, box.widthVu),
});

export const growBox = ({ widthVu, heightVu }: BoxSize, { top, bottom, left, right }: Pad): BoxSize => ({
  widthVu: widthVu + left + right,
  heightVu: heightVu + top + bottom,
});

/** Between two things that were moved apart. */
const CLEARANCE_VU = 0.6;
/** No single overlap is worth more room than this. */
const MOST_VU = 12;

/**
 * Pads that would undo overlaps: a marking on something of the music is moved away from the staff, with its whole
 * line; markings on one another get more width.
 *
 * @param lines the rooms of each system, so that a line is moved as one
 */
export const padsAgainst = (
  pads: Pads,
  overlaps: readonly Overlap[],
  lines: readonly (readonly ReservedSpace[])[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): Pads => {
  const grown = new Map(pads);
  const add = (room: ReservedSpace, more: Partial<Pad>): void => {
    const { top, bottom, left, right } = grown.get(keyOf(room)) ?? NO_PAD;
    grown.set(keyOf(room), {
      top: top + (more.top ?? 0),
      bottom: bottom + (more.bottom ?? 0),
      left: left + (more.left ?? 0),
      right: right + (more.right ?? 0),
    });
  };
  for (const line of lines) {
    const own = new Map(line.map((room) => [room.id, room]));
    const needs = new Map<string, number>();
    for (const overlap of overlaps) {
      const room = own.get(overlap.id);
      if (room === undefined) continue;
      const other = own.get(overlap.other);
      // What is told before the first note gives way outwards as a whole: it is too wide to be moved aside.
      if (other?.line === 'start') continue;
      if (overlap.isOurs && room.line !== 'start') {
        const side =
          (Math.min(overlap.ink.x1, overlap.with.x1) - Math.max(overlap.ink.x0, overlap.with.x0)) / 2;
        const more = Math.min(MOST_VU, side / unitsPerVu + CLEARANCE_VU);
        add(room, { left: more, right: more });
      } else {
        const isBelow = sideOf(room.line, placement) === 'below';
        const depth = isBelow ? overlap.with.y1 - overlap.ink.y0 : overlap.ink.y1 - overlap.with.y0;
        const need = Math.min(MOST_VU, depth / unitsPerVu + CLEARANCE_VU);
        needs.set(levelOf(room), Math.max(needs.get(levelOf(room)) ?? 0, need));
      }
    }
    for (const room of line) {
      const more = needs.get(levelOf(room)) ?? 0;
      const isBelow = sideOf(room.line, placement) === 'below';
      if (more > 0) add(room, isBelow ? { top: more } : { bottom: more });
    }
  }
  return grown;
};

import type { Score, XmlElement } from '../../engine/index.ts';
import { findPlaceholders, type PlacedPlaceholder } from '../draw/find-placeholders.ts';
import type { MarkingPlacement } from '../engraving-options.ts';
import { readNoteEdges } from '../geometry/note-edges.ts';
import { findObstacles, type Zone } from '../geometry/obstacles.ts';
import { type PageSystem, type PageSystems, readSystems } from '../geometry/page-systems.ts';
import { findOverhangs } from '../geometry/text-overhang.ts';
import { parsePage } from '../text/finish-page.ts';
import { type PageLayout, SVG_UNITS_PER_MM, svgUnitsPerVu } from './breaks/page-layout.ts';
import { findOverlaps, type Overlap } from './spaces/overlaps.ts';
import { inkOf, type PlacedSpace } from './spaces/placed-space.ts';
import { placedBox } from './spaces/placeholder.ts';
import type { ReservedSpace } from './spaces/reserve-spaces.ts';
import { MAX_SHIFT_VU, separateSpaces } from './spaces/separate-spaces.ts';
import { growBox, type Pads, padOf } from './spaces/space-padding.ts';
import { standingX0 } from './spaces/stance.ts';

export interface LaidOutPage {
  readonly svg: string;
  readonly root: XmlElement;
  readonly lines: PageSystems;
  readonly placed: readonly PlacedSpace[];
  readonly overlaps: readonly Overlap[];
  /** Words that would run over the right margin: ids of their groups, and how far each is moved to the left. */
  readonly overhangs: ReadonlyMap<string, number>;
}

/** What a page is read with. */
export interface PageReading {
  readonly rooms: ReadonlyMap<string, ReservedSpace>;
  readonly pads: Pads;
  readonly layout: PageLayout;
  /** Kinds of shapes that our drawings may cross. */
  readonly passable: ReadonlySet<string>;
  readonly placement: MarkingPlacement;
}

/** Reads a page of the layout: what stands where, with our drawings moved a little where that frees them. */
export const readLaidOutPage = (svg: string, reading: PageReading): LaidOutPage => {
  const { rooms, layout, passable } = reading;
  const root = parsePage(svg);
  const ids = new Set(rooms.keys());
  const overhangs = findOverhangs(svg, root, (layout.widthMm - layout.marginMm) * SVG_UNITS_PER_MM);
  const lines = readSystems(root);
  const unitsPerVu = svgUnitsPerVu(layout);
  const leftEdges = readNoteEdges(root);
  const asLaid = findPlaceholders(root, ids).map((placeholder) =>
    placeRoom(placeholder, rooms.get(placeholder.id)!, reading, unitsPerVu, lines, leftEdges),
  );
  const reach = (MAX_SHIFT_VU + 1) * unitsPerVu;
  const zones = asLaid.map(({ box }) => ({ y0: box.y0 - reach, y1: box.y1 + reach }));
  const obstacles = findObstacles(svg, root, {
    skipped: ids,
    shifts: overhangs,
    zones: joinZones(zones),
    passable,
  });
  const placed = separateSpaces(asLaid, obstacles, reading.placement, unitsPerVu);
  const inks = placed.map(({ room, box }) => ({ id: room.id, ink: inkOf(box, unitsPerVu) }));
  return { svg, root, lines, placed, overlaps: findOverlaps(obstacles, inks, unitsPerVu), overhangs };
};

/** The fewest zones that hold all of them. */
const joinZones = (zones: readonly Zone[]): Zone[] => {
  const joined: { y0: number; y1: number }[] = [];
  for (const { y0, y1 } of [...zones].sort((a, b) => a.y0 - b.y0)) {
    const last = joined.at(-1);
    if (last !== undefined && y0 <= last.y1) last.y1 = Math.max(last.y1, y1);
    else joined.push({ y0, y1 });
  }
  return joined;
};

const placeRoom = (
  placeholder: PlacedPlaceholder,
  room: ReservedSpace,
  { pads, layout }: PageReading,
  unitsPerVu: number,
  { origin, systems, bars }: PageSystems,
  leftEdges: ReadonlyMap<string, number>,
): PlacedSpace => {
  const pad = padOf(pads, room);
  const whole = placedBox(placeholder, growBox(room.box, pad), unitsPerVu);
  const width = room.box.widthVu * unitsPerVu;
  const rightMargin = (layout.widthMm - layout.marginMm) * SVG_UNITS_PER_MM;
  const laidX0 = whole.x0 + pad.left * unitsPerVu;
  const bar = placeholder.bar === null ? undefined : bars.get(placeholder.bar);
  const standing = { bar, leftEdges, unitsPerVu };
  const ownX0 = standingX0(room, laidX0, width, standing) + origin.x;
  // What is wide would stand out beyond the first or last bar of a line, into the margin or off the paper.
  const x0 = Math.max(origin.x, Math.min(ownX0, rightMargin - width));
  const y0 = whole.y0 + pad.top * unitsPerVu + origin.y;
  const box = {
    x0,
    y0,
    x1: x0 + width,
    y1: y0 + room.box.heightVu * unitsPerVu,
  };
  return { room, placeholder, box, system: nearestSystem(systems, (box.y0 + box.y1) / 2) };
};

const nearestSystem = (systems: readonly PageSystem[], y: number): number => {
  const distances = systems.map(({ staffTop, staffBottom }) => Math.max(staffTop - y, y - staffBottom, 0));
  return distances.indexOf(Math.min(...distances));
};

/** The index of the bar with which each system begins, page by page. */
export const systemStarts = (score: Score, pages: readonly LaidOutPage[]): number[][] => {
  const indexOf = new Map(score.bars.map((bar) => [bar.id, bar.index]));
  return pages.map(({ lines }) =>
    lines.systems.flatMap(({ bars }) => {
      const first = bars.map((id) => indexOf.get(id)).find((index) => index !== undefined);
      return first === undefined ? [] : [first];
    }),
  );
};

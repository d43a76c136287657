import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { SHARE_LEFT } from '../../draw/drawing.ts';
import { findPlaceholders, type PlacedPlaceholder } from '../../draw/find-placeholders.ts';
import type { MarkingPlacement } from '../../engraving-options.ts';
import { type ClearedGroups, clearOfMusic } from '../../geometry/clearing/clear-of-music.ts';
import { OVER_SYSTEM } from '../../geometry/clearing/outer-words.ts';
import { findOverhangs } from '../../geometry/clearing/text-overhang.ts';
import { EVERYTHING } from '../../geometry/drawn-groups.ts';
import type { MovedGroups } from '../../geometry/moved-groups.ts';
import { readNoteEdges } from '../../geometry/note-edges.ts';
import { findObstacles, type Zone } from '../../geometry/obstacles.ts';
import type { Point } from '../../geometry/outline-boxes.ts';
import { type PageSystems, readSystems } from '../../geometry/page-systems.ts';
import { textBoxes } from '../../geometry/text-boxes.ts';
import { parsePage } from '../../text/finish-page.ts';
import type { Box } from '../../text/outline.ts';
import { type PageLayout, SVG_UNITS_PER_MM, svgUnitsPerVu } from '../breaks/page-layout.ts';
import { UNDER_HEADING_VU } from '../breaks/page-space.ts';
import { dropToMusic, zonesUnder } from '../spaces/drop-to-music.ts';
import { findOverlaps, type Overlap } from '../spaces/overlaps.ts';
import { inkOf, type PlacedSpace, placedInks } from '../spaces/placed-space.ts';
import { placedBox } from '../spaces/placeholder.ts';
import { hasWords, linesToRaise, raiseToMusic } from '../spaces/raise-to-music.ts';
import { fenceIdOf, type ReservedSpace, sideOf } from '../spaces/reserve-spaces.ts';
import { separateSpaces, shiftLimit } from '../spaces/separate-spaces.ts';
import { growBox, keptBox, type Pads, padOf } from '../spaces/space-padding.ts';
import { EDGE_AT_MOMENT, standingX0 } from '../spaces/stance.ts';
import { type LinePicture, pictureLine } from './line-picture.ts';

/** One system as the layout drew it, with our drawings placed; lengths in the units of its SVG. */
export interface LaidOutSystem {
  readonly picture: LinePicture;
  /** Id and index of its first bar. */
  readonly firstId: string;
  readonly firstBar: number;
  /** Where the coordinates inside the margins begin. */
  readonly origin: Point;
  readonly placed: readonly PlacedSpace[];
  readonly overlaps: readonly Overlap[];
  /** How many words, figures and hairpins lie on something, for want of space between the staves. */
  readonly crowded: number;
  /** From where to where it reaches, with our drawings and without its heading. */
  readonly top: number;
  readonly bottom: number;
  /** Over the first system. */
  readonly heading: Heading | null;
}

/** The title and the names over the music. */
export interface Heading {
  /** Where it ends. */
  readonly bottom: number;
}

interface FoundHeading extends Heading {
  readonly element: XmlElement;
}

/** What a system is read with. */
export interface SystemReading {
  /** Indices of bars by their ids. */
  readonly indexOf: ReadonlyMap<string, number>;
  readonly rooms: ReadonlyMap<string, ReservedSpace>;
  readonly pads: Pads;
  readonly layout: PageLayout;
  /** Kinds of shapes that our drawings may cross. */
  readonly passable: ReadonlySet<string>;
  readonly placement: MarkingPlacement;
  /** Ids of the signs that the layout draws for us. */
  readonly signIds: ReadonlySet<string>;
}

/**
 * Reads a system of the layout: what stands where, with our drawings moved where that frees them. Outwards they may go
 * as far as they need, since the page gives each system its height; between the staves there is an end to it.
 *
 * @returns null for a page without a bar of the score
 */
export const readLaidOutSystem = (svg: string, reading: SystemReading): LaidOutSystem | null => {
  const { indexOf, layout, rooms } = reading;
  const root = parsePage(svg);
  const lines = readSystems(root);
  const { origin, systems } = lines;
  const leftEdges = readNoteEdges(root);
  const firstId = systems[0]?.bars.find((id) => indexOf.has(id));
  if (firstId === undefined) return null;
  const overhangs = findOverhangs(svg, root, (layout.widthMm - layout.marginMm) * SVG_UNITS_PER_MM);
  const heading = findHeading(svg, root, origin);
  // What has no id, as a line without a heading, must not hide what else has none.
  const headingId = heading?.element.attributes.id;
  const fences = [...rooms].flatMap(([name, { fence }]) => (fence === undefined ? [] : [fenceIdOf(name)]));
  const passed = new Set([...rooms.keys(), ...fences, ...(headingId === undefined ? [] : [headingId])]);
  const unitsPerVu = svgUnitsPerVu(layout);
  const found = findPlaceholders(root, new Set(rooms.keys())).map((placeholder) =>
    placeRoom(placeholder, rooms.get(placeholder.id)!, reading, lines, leftEdges),
  );
  const starts = found
    .filter(({ room: { line } }) => line === 'start' && sideOf(line, reading.placement) === 'above')
    .map(({ box }) => inkOf(box, unitsPerVu));
  const { staffTop } = systems[0]!;
  const clear = (counts: readonly Box[]): ClearedGroups =>
    clearOfMusic(svg, root, { overhangs, passed, staffTop, unitsPerVu, counts, starts });
  const music = clear([]);
  const asLaid = dropCounts(svg, root, found, { passed, moved: music.moved }, reading);
  const counts = asLaid.filter((each) => isCountOver(each, reading.placement));
  const cleared = counts.length === 0 ? music : clear(counts.map(({ box }) => inkOf(box, unitsPerVu)));
  const settled = settle(svg, root, asLaid, { passed, moved: cleared.moved }, reading);
  const raised = raise(svg, root, settled.placed, { passed, moved: cleared.moved }, reading);
  const placed = raised?.placed ?? settled.placed;
  const boxes = placed.map(({ box }) => box);
  const gaps = placed.map(({ placeholder: { id, span } }) => ({ name: id, span }));
  return {
    picture: pictureLine(svg, root, {
      heading: heading?.element ?? null,
      moved: cleared.moved,
      rooms: gaps,
      fences: findPlaceholders(root, new Set(fences)).map(({ span }) => span),
      signIds: reading.signIds,
    }),
    firstId,
    firstBar: indexOf.get(firstId)!,
    origin,
    placed,
    overlaps: settled.overlaps,
    crowded: cleared.crowded,
    top: topOf(Math.min(cleared.top, ...boxes.map(({ y0 }) => y0)), heading?.bottom ?? null, {
      origin,
      unitsPerVu,
      isLowered: isLowered(placed, asLaid, reading),
    }),
    bottom: Math.max(
      raised?.musicBottom ?? heightOf(root) - origin.y,
      cleared.bottom,
      ...boxes.map(({ y1 }) => y1),
    ),
    heading: heading === null ? null : { bottom: heading.bottom },
  };
};

/** What is left free over the first system where its uppermost drawing was brought down to the music. */
const OVER_LOWERED_VU = 6;

/**
 * Where a system begins: under its heading, from which its uppermost ink keeps a distance. What the layout kept free for
 * drawings over it that were brought down to the music is free then.
 */
const topOf = (
  ink: number,
  heading: number | null,
  {
    isLowered,
    origin,
    unitsPerVu,
  }: { readonly isLowered: boolean; readonly origin: Point; readonly unitsPerVu: number },
): number => {
  if (heading === null) return isLowered ? ink : Math.min(origin.y, ink);
  const least = Math.min(heading, ink - UNDER_HEADING_VU * unitsPerVu);
  return isLowered ? Math.max(least, ink - OVER_LOWERED_VU * unitsPerVu) : least;
};

/** Whether what stands uppermost over the system, as a table of levers does, was brought down from where it was laid. */
const isLowered = (
  placed: readonly PlacedSpace[],
  asLaid: readonly PlacedSpace[],
  { layout, placement }: SystemReading,
): boolean => {
  const laid = new Map(asLaid.map(({ box, room }) => [room.id, box.y0]));
  return placed.some(
    ({ box, room }) =>
      room.line === 'start' &&
      sideOf(room.line, placement) === 'above' &&
      box.y0 - laid.get(room.id)! > svgUnitsPerVu(layout),
  );
};

type Settled = Pick<LaidOutSystem, 'placed' | 'overlaps'>;

const isCountOver = ({ room }: PlacedSpace, placement: MarkingPlacement): boolean =>
  room.line === 'counts' && sideOf(room.line, placement) === 'above';

/** Sets counts next to the music, where the layout has words between: these stand over the counts. */
const dropCounts = (
  svg: string,
  root: XmlElement,
  found: readonly PlacedSpace[],
  { passed, moved }: { readonly passed: ReadonlySet<string>; readonly moved: MovedGroups },
  { layout, placement }: SystemReading,
): readonly PlacedSpace[] => {
  const counts = found.filter((each) => isCountOver(each, placement));
  if (counts.length === 0) return found;
  const obstacles = findObstacles(svg, root, {
    ...{ ...EVERYTHING, skipped: passed, moved },
    passable: OVER_SYSTEM,
  });
  const unitsPerVu = svgUnitsPerVu(layout);
  const freed = separateSpaces(counts, obstacles, placement, unitsPerVu, shiftLimit.far);
  const dropped = dropToMusic(freed, obstacles, placement, unitsPerVu);
  const own = new Map(dropped.map((each) => [each.room.id, each]));
  return found.map((each) => own.get(each.room.id) ?? each);
};

const findHeading = (svg: string, root: XmlElement, origin: Point): FoundHeading | null => {
  const element = descendantsNamed(root, 'g').find((group) => group.attributes.class === 'pgHead');
  if (element === undefined) return null;
  const boxes = descendantsNamed(element, 'text').flatMap((text) => textBoxes(svg, text));
  return { element, bottom: origin.y + Math.max(0, ...boxes.map(({ y1 }) => y1)) };
};

/** Moves what touches something a little, and where that does not help as far as it takes. */
const settle = (
  svg: string,
  root: XmlElement,
  asLaid: readonly PlacedSpace[],
  { passed, moved }: { readonly passed: ReadonlySet<string>; readonly moved: MovedGroups },
  { layout, passable, placement }: SystemReading,
): Settled => {
  const unitsPerVu = svgUnitsPerVu(layout);
  const within = (farthest: number): Settled => {
    const reach = (farthest + 1) * unitsPerVu;
    const obstacles = findObstacles(svg, root, {
      skipped: passed,
      moved,
      zones: joinZones(asLaid.map(({ box }) => ({ y0: box.y0 - reach, y1: box.y1 + reach }))),
      passable,
    });
    const placed = separateSpaces(asLaid, obstacles, placement, unitsPerVu, farthest);
    const inks = placed.flatMap((each) => placedInks(each, unitsPerVu));
    return { placed, overlaps: findOverlaps(obstacles, inks, unitsPerVu) };
  };
  const near = within(shiftLimit.near);
  const settled = near.overlaps.length === 0 ? near : within(shiftLimit.far);
  const obstacles = findObstacles(svg, root, {
    skipped: passed,
    moved,
    zones: joinZones(zonesUnder(settled.placed, placement, unitsPerVu)),
    passable,
  });
  return { ...settled, placed: dropToMusic(settled.placed, obstacles, placement, unitsPerVu) };
};

/** Brings markings up to the music; null where none moves. What the layout kept free for them is free then. */
const raise = (
  svg: string,
  root: XmlElement,
  placed: readonly PlacedSpace[],
  { passed, moved }: { readonly passed: ReadonlySet<string>; readonly moved: MovedGroups },
  { layout, placement }: SystemReading,
): { readonly placed: readonly PlacedSpace[]; readonly musicBottom: number } | null => {
  const unitsPerVu = svgUnitsPerVu(layout);
  const lines = linesToRaise(placed, placement, unitsPerVu);
  if (lines.length === 0) return null;
  const obstacles = findObstacles(svg, root, { ...EVERYTHING, skipped: passed, moved });
  const raised = lines.reduce((now, line) => raiseToMusic(line, now, obstacles, unitsPerVu), placed);
  const wasAt = new Map(placed.map(({ box, room }) => [room.id, box.y0]));
  if (raised.every(({ box, room }) => box.y0 === wasAt.get(room.id)) && !lines.some(hasWords)) return null;
  return {
    placed: raised,
    musicBottom: Math.max(...obstacles.map(({ box }) => box.y1)),
  };
};

/** Height of the drawing in its own units. */
const heightOf = (root: XmlElement): number => {
  const viewBox = root.children.find(({ attributes }) => attributes.class === 'definition-scale')?.attributes
    .viewBox;
  return Number(viewBox?.split(' ')[3]);
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
  { pads, layout }: SystemReading,
  { bars, origin }: PageSystems,
  leftEdges: ReadonlyMap<string, number>,
): PlacedSpace => {
  const unitsPerVu = svgUnitsPerVu(layout);
  const pad = padOf(pads, room);
  const kept = keptBox(room);
  const whole = placedBox(placeholder, growBox(kept, pad), unitsPerVu);
  const width = room.box.widthVu * unitsPerVu;
  const before = (width - kept.widthVu * unitsPerVu) * SHARE_LEFT[EDGE_AT_MOMENT[room.stance]];
  const rightMargin = (layout.widthMm - layout.marginMm) * SVG_UNITS_PER_MM;
  const laidX0 = whole.x0 + pad.left * unitsPerVu - before;
  const bar = placeholder.bar === null ? undefined : bars.get(placeholder.bar);
  const ownX0 = standingX0(room, laidX0, width, { bar, leftEdges, unitsPerVu }) + origin.x;
  // What is wide would stand out beyond the first or last bar of a line, into the margin or off the paper.
  const x0 = Math.max(origin.x, Math.min(ownX0, rightMargin - width));
  const y0 = whole.y0 + pad.top * unitsPerVu + origin.y;
  const box = { x0, y0, x1: x0 + width, y1: y0 + room.box.heightVu * unitsPerVu };
  return { room, placeholder, box };
};

import type { MarkingPlacement } from '../engraving-options.ts';
import { svgUnitsPerVu } from './breaks/page-layout.ts';
import type { Drawer } from './drawer.ts';
import { type LaidOutSystem, readLaidOutSystem, type SystemReading } from './laid-out-system.ts';
import type { LayoutDocument } from './layout-document.ts';
import type { LayoutRequest } from './layout-request.ts';
import { drawLines } from './lines/draw-lines.ts';
import type { ReservedSpace } from './spaces/reserve-spaces.ts';
import { growBox, type Pads, padOf, padsAgainst } from './spaces/space-padding.ts';

/** Lines as they were laid out. */
export interface Lines {
  readonly systems: readonly LaidOutSystem[];
  /** The bars at whose start a setting is printed in any case: the rooms are those for them. */
  readonly reminders: readonly number[];
  /** The lines could not be laid out one by one. */
  readonly isWhole: boolean;
}

/** What is laid out: bars (indices) that begin a line, without the first, and bars with a setting in any case. */
export interface LinePlan {
  readonly starts: readonly number[];
  readonly reminders: readonly number[];
}

/** Lines in which something touches for want of width, or of space between the staves, get more of it so often. */
const MORE_PASSES = 2;

/**
 * Lays each line out by itself. Almost always our drawings can be moved clear of everything; the lines where they
 * cannot are laid out again with more room, and the better of the two is kept.
 *
 * @returns null where the layout cannot load the document, or draws nothing
 */
export const layOutLines = (
  request: LayoutRequest,
  document: LayoutDocument,
  drawer: Drawer,
  { reminders, starts }: LinePlan,
): Lines | null => {
  const { engraving, layout, score } = request;
  const rooms = request.spacesFor(reminders);
  const names = nameSpaces(rooms);
  const byName = new Map(rooms.map((room, i) => [names[i]!, room]));
  const run = (pads: Pads, wanted?: readonly number[]): LaidOutSystem[] | null => {
    const padded = rooms.map((room, i) => ({
      ...room,
      id: names[i]!,
      box: growBox(room.box, padOf(pads, room)),
    }));
    const drawn = drawLines(drawer, document.write(padded, starts), layout, wanted);
    if (drawn === null) return null;
    isWhole ||= drawn.isWhole;
    const reading: SystemReading = { score, rooms: byName, pads, layout, ...crossing(engraving.placement) };
    const systems = drawn.lines.map((svg) => readLaidOutSystem(svg, reading));
    return systems.every((system) => system !== null) ? systems : null;
  };
  let isWhole = false;
  let systems = run(new Map());
  if (systems === null || systems.length === 0) return null;
  let tried = systems;
  let pads: Pads = new Map();
  for (let i = 0; i < MORE_PASSES; i += 1) {
    const crowded = systems.flatMap(({ overlaps }, index) => (overlaps.length > 0 ? [index] : []));
    if (crowded.length === 0) break;
    pads = morePads(pads, tried, engraving.placement, svgUnitsPerVu(layout));
    const again = run(pads, crowded);
    if (again === null) break;
    tried = systems.map((system, index) => again[crowded.indexOf(index)] ?? system);
    systems = systems.map((system, index) => better(system, tried[index]!));
  }
  return { systems, reminders, isWhole };
};

/** Names for spaces by their bars: another plan leaves those of other bars as they were. */
const nameSpaces = (rooms: readonly ReservedSpace[]): string[] => {
  const counts = new Map<number, number>();
  return rooms.map(({ bar }) => {
    const count = counts.get(bar) ?? 0;
    counts.set(bar, count + 1);
    return `space-${bar}-${count}`;
  });
};

const better = (system: LaidOutSystem, other: LaidOutSystem): LaidOutSystem =>
  other.overlaps.length < system.overlaps.length ? other : system;

const morePads = (
  pads: Pads,
  systems: readonly LaidOutSystem[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): Pads =>
  padsAgainst(
    pads,
    systems.flatMap(({ overlaps }) => overlaps),
    systems.map(({ placed }) => placed.map(({ room }) => room)),
    placement,
    unitsPerVu,
  );

/** Bar lines run through the space between the staves. */
const PASSABLE_BETWEEN: ReadonlySet<string> = new Set(['barLine']);
const NOTHING_PASSABLE: ReadonlySet<string> = new Set();

const crossing = (placement: MarkingPlacement): Pick<SystemReading, 'placement' | 'passable'> => ({
  placement,
  passable: placement === 'between' ? PASSABLE_BETWEEN : NOTHING_PASSABLE,
});

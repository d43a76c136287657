import type { EngravingOptions } from '../engraving-options.ts';
import { parsePage } from '../text/finish-page.ts';
import type { BreakRequest, MarkingHeights } from './breaks/choose-breaks.ts';
import { svgUnitsPerVu } from './breaks/page-layout.ts';
import { pageSpaceOf } from './breaks/page-space.ts';
import type { RateTurn } from './breaks/page-turns.ts';
import type { LayoutDocument } from './layout-document.ts';
import type { LayoutRequest } from './layout-request.ts';
import { measureBars } from './measure/measure-bars.ts';
import { type ReservedSpace, sideOf, standsBetween } from './spaces/reserve-spaces.ts';
import type { Engraver } from './verovio.ts';

/** What a part is laid out with. */
export interface Workshop {
  readonly request: LayoutRequest;
  readonly document: LayoutDocument;
  readonly engraver: Engraver;
  readonly rate: RateTurn;
}

/**
 * Measures the part as one line.
 *
 * @param begun bars (indices) that no joined rest may hide
 * @returns null where the layout cannot load it, or draws none of its bars
 */
export const measurePart = (
  { request, document, engraver, rate }: Workshop,
  begun: readonly number[],
): BreakRequest | null => {
  const { engraving, layout, score } = request;
  const rooms = request.spacesFor([]);
  const svg = engraver.layOutUnbroken(document.write(rooms, begun), layout);
  if (svg === null) return null;
  const ids = new Set(rooms.map(({ id }) => id));
  const part = measureBars(parsePage(svg), score, ids, svgUnitsPerVu(layout));
  if (part.bars.length === 0) return null;
  return {
    score,
    part,
    markings: markingHeights(rooms, engraving.placement),
    movements: document.movements,
    space: pageSpaceOf(layout),
    turns: engraving.pageTurns,
    rate,
  };
};

const markingHeights = (
  rooms: readonly ReservedSpace[],
  placement: EngravingOptions['placement'],
): Map<number, MarkingHeights> => {
  const heights = new Map<number, MarkingHeights>();
  for (const room of rooms) {
    const { bar, box, line } = room;
    const known = heights.get(bar) ?? { above: 0, between: 0, below: 0 };
    const side = standsBetween(room, placement) ? 'between' : sideOf(line, placement);
    heights.set(bar, { ...known, [side]: Math.max(known[side], box.heightVu) });
  }
  return heights;
};

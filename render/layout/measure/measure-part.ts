import { compare } from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { BreakRequest, MarkingHeights } from '../breaks/choose-breaks.ts';
import { pageSpaceOf } from '../breaks/page-space.ts';
import type { RateTurn } from '../breaks/page-turns.ts';
import type { LayoutDocument } from '../document/layout-document.ts';
import type { Drawer } from '../drawer/drawer.ts';
import type { LayoutRequest } from '../layout-request.ts';
import { type ReservedSpace, sideOf, standsBetween, withFences } from '../spaces/reserve-spaces.ts';
import { growBox, keptBox, padOf } from '../spaces/space-padding.ts';
import type { Stepwise } from '../stepwise.ts';
import type { NaturalLine } from './measure-bars.ts';
import { measureNaturalLines } from './natural-lines.ts';
import { barWidener } from './widen-bars.ts';

/** What a part is laid out with. */
export interface Workshop {
  readonly request: LayoutRequest;
  readonly document: LayoutDocument;
  readonly drawer: Drawer;
  readonly rate: RateTurn;
}

/**
 * Measures the part: the music as it is without our drawings, which is the same for every plan, and then what room the
 * drawings need.
 *
 * @param begun bars (indices) that no joined rest may hide
 * @yields the part as far as it is measured, made when it is asked for
 * @returns null where the layout cannot load it, or draws none of its bars
 */
export function* measurePart(
  { request, document, drawer, rate }: Workshop,
  begun: readonly number[],
): Stepwise<() => BreakRequest | null, BreakRequest | null> {
  const { engraving, layout, score } = request;
  const rooms = withFences(
    request.spacesFor([]).map((room) => ({ ...room, box: growBox(keptBox(room), padOf(new Map(), room)) })),
  ).toSorted((a, b) => compare(a.at, b.at));
  const measuring = measureNaturalLines(drawer, document, [...begun, ...rooms.map(({ bar }) => bar)], layout);
  const indexOf = new Map(score.bars.map(({ id, index }) => [id, index]));
  const widen = barWidener(score, rooms);
  const describe = (lines: readonly NaturalLine[]): BreakRequest | null => {
    const bars = lines.flatMap((line) => {
      const widened = widen(line);
      return line.bars.flatMap(({ id, width, ...bar }) => {
        const index = indexOf.get(id);
        return index === undefined
          ? []
          : [{ ...bar, bar: index, width: width + (widened.get(id) ?? 0), more: 0 }];
      });
    });
    if (bars.length === 0) return null;
    return {
      score,
      part: { bars, heading: lines[0]!.heading, under: 0 },
      markings: markingHeights(rooms, engraving.placement),
      movements: document.movements,
      space: pageSpaceOf(layout),
      turns: engraving.pageTurns,
      rate,
    };
  };
  let step = measuring.next();
  for (; step.done !== true; step = measuring.next()) {
    const measured = [...step.value];
    yield () => describe(measured);
  }
  return step.value === null ? null : describe(step.value);
}

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

import type { Plan } from '../engine/plan/model.ts';
import { ok, type Result, refuse } from '../engine/problem.ts';
import type { Score } from '../engine/score/model.ts';
import type { Art } from './draw/art.ts';
import { drawFlag } from './draw/flag-art.ts';
import { drawMarking } from './draw/marking-art.ts';
import { type ArtPlace, flagGroup, markingGroup } from './draw/page-groups.ts';
import type { EngravingOptions } from './engraving-options.ts';
import { flagPlaces } from './flags.ts';
import { findRehearsalMarks, type RehearsalMark } from './geometry/rehearsal-marks.ts';
import type { LaidOutPage } from './layout/laid-out.ts';
import { layOutHarp } from './layout/lay-out.ts';
import { pageLayoutOf, svgUnitsPerVu } from './layout/page-layout.ts';
import type { PageTurn } from './layout/page-turns.ts';
import type { Room } from './layout/placeholder-edits.ts';
import type { Engraver } from './layout/verovio.ts';
import { chooseMarkings } from './markings.ts';
import { finishPage } from './page-text.ts';
import { separateIds } from './unique-ids.ts';

/** The pages of a part, and what there is to say about them. */
export interface EngravedPages {
  /** Standalone SVG documents. */
  readonly pages: readonly string[];
  readonly turns: readonly PageTurn[];
  readonly rehearsals: readonly RehearsalMark[];
  /** Characters of the score's text that our fonts lack. */
  readonly missing: readonly string[];
  /** Pages (from 1) on which something of ours touches something else for want of room. */
  readonly crowded: readonly { readonly page: number; readonly overlaps: number }[];
  readonly replacedMarkings: number;
  readonly breaksGivenUp: boolean;
}

/**
 * Lays out and draws the pages of a part with all its markings.
 *
 * @returns the pages, or `layout-failed`: also where the layout lost a bar that bears a marking, since a page without it
 * would mislead
 */
export const engravePages = (
  score: Score,
  plan: Plan,
  engraving: EngravingOptions,
  engraver: Engraver,
): Result<EngravedPages> => {
  const layout = pageLayoutOf(engraving);
  const flags = engraving.numberImpossible ? flagPlaces(score, plan).map(drawFlagPlace) : [];
  const drawingsFor = (reminders: readonly number[]): Drawing[] => [
    ...chooseMarkings(score, plan, engraving, reminders).map((marking): Drawing => {
      const art = drawMarking(marking, engraving);
      const number = score.bars[marking.bar]!.number;
      return {
        ...marking,
        line: 'markings',
        box: art.box,
        draw: (place) => markingGroup(marking, number, art, place),
      };
    }),
    ...flags,
  ];
  const { respellings } = plan;
  const laidOut = layOutHarp({ score, engraving, layout, respellings, roomsFor: drawingsFor }, engraver);
  if (!laidOut.ok) return laidOut;
  const drawings = new Map(drawingsFor(laidOut.value.reminders).map((drawing) => [drawing.id, drawing]));
  const unitsPerVu = svgUnitsPerVu(layout);
  const backed = engraving.placement === 'between';
  const finished = laidOut.value.pages.map((page) => finishLaidOut(page, drawings, unitsPerVu, backed));
  const placed = laidOut.value.pages.reduce((sum, page) => sum + page.placed.length, 0);
  if (placed !== drawings.size) return refuse({ code: 'layout-failed' });
  return ok({
    ...laidOut.value,
    pages: separateIds(finished.map(({ svg }) => svg)),
    rehearsals: laidOut.value.pages.flatMap((page, i) => findRehearsalMarks(page.svg, page.root, i)),
    missing: [...new Set(finished.flatMap(({ missing }) => missing))],
    crowded: laidOut.value.pages
      .map(({ overlaps }, i) => ({ page: i + 1, overlaps: overlaps.length }))
      .filter(({ overlaps }) => overlaps > 0),
  });
};

/** A room and what is drawn in it. */
interface Drawing extends Room {
  readonly draw: (place: ArtPlace) => string;
}

const drawFlagPlace = (flag: ReturnType<typeof flagPlaces>[number]): Drawing => {
  const art: Art = drawFlag(flag.number);
  const { id, at, bar } = flag;
  return {
    id,
    at,
    bar,
    graceNote: null,
    line: 'flags',
    box: art.box,
    draw: (place) => flagGroup(flag, art, place),
  };
};

/** @param backed whether bar lines run behind the drawings, which then get a white ground */
const finishLaidOut = (
  page: LaidOutPage,
  drawings: ReadonlyMap<string, Drawing>,
  unitsPerVu: number,
  backed: boolean,
) => {
  const replacements = page.placed.map(({ room, box, placeholder }) => {
    const ground = backed && room.line === 'markings';
    const { x, y } = page.lines.origin;
    const place: ArtPlace = { x: box.x0 - x, y: box.y0 - y, unitsPerVu, ground: ground ? room.box : null };
    return { ...placeholder.span, put: drawings.get(room.id)!.draw(place) };
  });
  return finishPage(page.svg, page.root, replacements, page.overhangs);
};

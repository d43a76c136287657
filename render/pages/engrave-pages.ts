import { fail, type HarpPlan, ok, type Result, type Score } from '../../engine/index.ts';
import type { Drawing } from '../draw/drawing.ts';
import { drawPlaceNumber } from '../draw/place-number.ts';
import { type DrawingPlace, placeNumberGroup } from '../draw/svg-groups.ts';
import type { Edit } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findRehearsalMarks, type RehearsalMark } from '../geometry/rehearsal-marks.ts';
import { pageLayoutOf, svgUnitsPerVu } from '../layout/breaks/page-layout.ts';
import type { PageTurn } from '../layout/breaks/page-turns.ts';
import type { LaidOutPage } from '../layout/laid-out-page.ts';
import { layOutHarp } from '../layout/lay-out.ts';
import type { LayoutMei } from '../layout/layout-mei.ts';
import type { ReservedSpace } from '../layout/spaces/reserve-spaces.ts';
import type { Engraver } from '../layout/verovio.ts';
import { noteSignEdits, noteSignReplacements } from '../levers/note-signs.ts';
import {
  type DrawnMarking,
  drawPrinted,
  isDrawn,
  markingsFor,
  printedGroup,
} from '../markings/printed-markings.ts';
import { listUnplayablePlaces } from '../markings/unplayable-places.ts';
import type { PlayedNotes } from '../part/note-looks.ts';
import { type FontCharacters, mergeCharacters } from '../text/embed-fonts.ts';
import { finishPage } from '../text/finish-page.ts';
import { makeIdsUnique } from './unique-ids.ts';

/** The pages of a part, and what there is to say about them. */
export interface EngravedPages {
  /** SVG documents. */
  readonly pages: readonly string[];
  /** What the pages need of the text font. */
  readonly characters: FontCharacters;
  readonly turns: readonly PageTurn[];
  readonly rehearsals: readonly RehearsalMark[];
  /** Characters of the score's text that our fonts lack. */
  readonly missing: readonly string[];
  /** Pages (from 1) on which something of ours touches something else for want of room. */
  readonly crowded: readonly { readonly page: number; readonly overlaps: number }[];
  readonly replacedMarkings: number;
  /** Bars (indices) with accidentals that the file does not print, one for each. */
  readonly accidentalsAdded: readonly number[];
  /** Bars (indices) with many ledger lines within reach of the other staff. */
  readonly ledgerBars: readonly number[];
  readonly breaksGivenUp: boolean;
  /** Bars (indices) at whose start a setting is printed in any case: the first of systems or pages. */
  readonly reminders: readonly number[];
}

/**
 * Lays out and draws the pages of a part with all its markings.
 *
 * @returns the pages, or `layout-failed`: also where the layout lost a bar that bears a marking, since a page without it
 * would mislead
 */
export const engravePages = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  engraver: Engraver,
): Result<EngravedPages> => {
  const layout = pageLayoutOf(engraving);
  const flags = engraving.numberUnplayable ? listUnplayablePlaces(score, harp.plan).map(drawingOfPlace) : [];
  const numberOf = (bar: number): string => score.bars[bar]!.number;
  const signs = markingsFor(score, harp, engraving).filter((marking) => marking.kind === 'lever-notes');
  const drawingsFor = (reminders: readonly number[]): RoomDrawing[] => [
    ...markingsFor(score, harp, engraving, reminders)
      .filter(isDrawn)
      .map((marking) => drawingOf(marking, numberOf(marking.bar), engraving)),
    ...flags,
  ];
  const signEdits = (mei: LayoutMei) => noteSignEdits(score, mei, signs);
  const played = playedNotes(harp);
  const laidOut = layOutHarp(
    { score, engraving, layout, played, signEdits, spacesFor: drawingsFor },
    engraver,
  );
  if (!laidOut.ok) return laidOut;
  const drawings = new Map(drawingsFor(laidOut.value.reminders).map((drawing) => [drawing.id, drawing]));
  const unitsPerVu = svgUnitsPerVu(layout);
  const backed = engraving.placement === 'between';
  const finished = laidOut.value.pages.map((page) => {
    const named = noteSignReplacements(page.root, signs, numberOf);
    return { ...finishLaidOut(page, drawings, named, unitsPerVu, backed), named: named.length };
  });
  const placed = laidOut.value.pages.reduce((sum, page) => sum + page.placed.length, 0);
  const named = finished.reduce((sum, page) => sum + page.named, 0);
  const signed = signs.reduce((sum, { changes }) => sum + changes.length, 0);
  if (placed !== drawings.size || named !== signed) return fail({ code: 'layout-failed' });
  return ok({
    ...laidOut.value,
    pages: makeIdsUnique(finished.map(({ svg }) => svg)),
    rehearsals: laidOut.value.pages.flatMap((page, i) => findRehearsalMarks(page.svg, page.root, i)),
    characters: mergeCharacters(finished.map(({ characters }) => characters)),
    missing: [...new Set(finished.flatMap(({ missing }) => missing))],
    crowded: laidOut.value.pages
      .map(({ overlaps }, i) => ({ page: i + 1, overlaps: overlaps.length }))
      .filter(({ overlaps }) => overlaps > 0),
  });
};

/** A room and what is drawn in it. */
interface RoomDrawing extends ReservedSpace {
  readonly draw: (place: DrawingPlace) => string;
}

const drawingOf = (marking: DrawnMarking, barNumber: string, engraving: EngravingOptions): RoomDrawing => {
  const art = drawPrinted(marking, engraving);
  return {
    ...marking,
    line: marking.kind === 'levers' ? 'start' : 'markings',
    box: art.box,
    draw: (place) => printedGroup(marking, barNumber, art, place),
  };
};

/** Notes that are played otherwise than written: on other strings, or not at all. */
export const playedNotes = (harp: HarpPlan): PlayedNotes =>
  harp.kind === 'pedal' ? harp.plan : { respellings: harp.plan.respellings, omitted: harp.omitted };

const drawingOfPlace = (flag: ReturnType<typeof listUnplayablePlaces>[number]): RoomDrawing => {
  const art: Drawing = drawPlaceNumber(flag.number);
  const { id, at, bar } = flag;
  return {
    id,
    at,
    bar,
    graceNote: null,
    line: 'flags',
    box: art.box,
    draw: (place) => placeNumberGroup(flag, art, place),
  };
};

/**
 * @param named edits of what the layout drew for us
 * @param backed whether bar lines run behind the drawings, which then get a white ground
 */
const finishLaidOut = (
  page: LaidOutPage,
  drawings: ReadonlyMap<string, RoomDrawing>,
  named: readonly Edit[],
  unitsPerVu: number,
  backed: boolean,
) => {
  const replacements = page.placed.map(({ room, box, placeholder }) => {
    const ground = backed && room.line === 'markings';
    const { x, y } = page.lines.origin;
    const place: DrawingPlace = {
      x: box.x0 - x,
      y: box.y0 - y,
      unitsPerVu,
      ground: ground ? room.box : null,
    };
    return { ...placeholder.span, put: drawings.get(room.id)!.draw(place) };
  });
  return finishPage(page.svg, page.root, [...replacements, ...named], page.overhangs);
};

import { fail, ok, type Result, type Score } from '../../engine/index.ts';
import type { Edit } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { PlayedNotes } from '../part/note-looks.ts';
import type { Breaks } from './breaks/breaks.ts';
import { fileBreaks } from './breaks/file-breaks.ts';
import { movePageTurns, turnsOf } from './breaks/move-page-turns.ts';
import { type PageLayout, SVG_UNITS_PER_MM, svgUnitsPerVu } from './breaks/page-layout.ts';
import type { PageTurn } from './breaks/page-turns.ts';
import { type LaidOutPage, type PageReading, readLaidOutPage, systemStarts } from './laid-out-page.ts';
import { type LayoutDocument, prepareDocument } from './layout-document.ts';
import type { LayoutMei } from './layout-mei.ts';
import type { ReservedSpace } from './spaces/reserve-spaces.ts';
import { growBox, type Pads, padOf, padsAgainst } from './spaces/space-padding.ts';
import type { BreakMode, Engraver } from './verovio.ts';

/** What is laid out. */
export interface LayoutRequest {
  readonly score: Score;
  readonly engraving: EngravingOptions;
  readonly layout: PageLayout;
  readonly played: PlayedNotes;
  /** What is to be set as notes of the layout's own document. */
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
  /** The rooms wanted, given the bars (indices) at whose start a setting is printed in any case. */
  readonly spacesFor: (reminders: readonly number[]) => readonly ReservedSpace[];
}

export interface LaidOutScore {
  readonly pages: readonly LaidOutPage[];
  /** The bars at whose start a setting is printed in any case: the rooms are those for them. */
  readonly reminders: readonly number[];
  readonly turns: readonly PageTurn[];
  readonly replacedMarkings: number;
  /** Bars (indices) with accidentals that the file does not print, one for each. */
  readonly accidentalsAdded: readonly number[];
  /** Bars (indices) with many ledger lines within reach of the other staff. */
  readonly ledgerBars: readonly number[];
  /** The breaks of the file were asked for, but it has none, or its pages are too full for the paper. */
  readonly breaksGivenUp: boolean;
}

/** Passes after the first: for page turns and reminders, and for what still touches then. */
const MORE_PASSES = 3;

/**
 * Lays the harp's staves out on pages with a room for every marking.
 *
 * The first pass shows what only a layout can show: where lines begin, how high they are, what touches what. If
 * settings are wanted at line starts, if a page turn can be moved to a rest, or if something touches, the score is laid
 * out again with the breaks fixed and more room where it was too tight. The best pass is kept.
 *
 * @returns pages in which each room still holds its placeholder, or `layout-failed`
 */
export const layOutHarp = (request: LayoutRequest, engraver: Engraver): Result<LaidOutScore> => {
  const { score, engraving } = request;
  const document = prepareDocument(request, engraver);
  const run = document === null ? null : passRunner(request, document, engraver);
  const first = run === null ? null : firstPass(request, run);
  if (run === null || first === null) return fail({ code: 'layout-failed' });
  let best = first.pass;
  let pass = first.pass;
  const reminders = remindersOf(request, pass);
  let next = nextPass(request, pass, reminders, !first.keepsBreaks);
  for (let i = 0; i < MORE_PASSES && next !== null; i += 1) {
    const tried = runFitting(run, next, request.layout);
    if (tried === null) break;
    pass = tried;
    if (next.isWanted || countOverlaps(pass) < countOverlaps(best)) best = pass;
    next = countOverlaps(pass) === 0 ? null : nextPass(request, pass, reminders, false);
  }
  return ok({
    pages: best.pages,
    reminders: best.plan.reminders,
    turns: turnsOf(score, engraving.pageTurns, best.pages),
    replacedMarkings: document!.replacedMarkings,
    accidentalsAdded: document!.accidentalsAdded,
    ledgerBars: document!.ledgerBars,
    breaksGivenUp: first.breaksGivenUp,
  });
};

/** What a pass is asked for. */
interface PassPlan {
  readonly mode: BreakMode;
  /** Null where Verovio is to break. */
  readonly breaks: Breaks | null;
  readonly reminders: readonly number[];
  readonly pads: Pads;
  /** It brings page turns or settings that the pass before had not: it is taken even if more touches in it. */
  readonly isWanted: boolean;
}

interface Pass {
  readonly plan: PassPlan;
  readonly rooms: ReadonlyMap<string, ReservedSpace>;
  readonly pages: readonly LaidOutPage[];
}

type RunPass = (plan: PassPlan) => Pass | null;

/** Bar lines run through the space between the staves. */
const PASSABLE_BETWEEN: ReadonlySet<string> = new Set(['barLine']);
const NOTHING_PASSABLE: ReadonlySet<string> = new Set();

const passRunner = (request: LayoutRequest, document: LayoutDocument, engraver: Engraver): RunPass => {
  const { engraving, layout } = request;
  const { placement } = engraving;
  const passable = engraving.placement === 'between' ? PASSABLE_BETWEEN : NOTHING_PASSABLE;
  return (plan) => {
    const rooms = request.spacesFor(plan.reminders);
    const padded = rooms.map((room) => ({ ...room, box: growBox(room.box, padOf(plan.pads, room)) }));
    const svgs = engraver.layOut(document.write(padded, plan.breaks), layout, plan.mode);
    if (svgs === null || svgs.length === 0) return null;
    const byId = new Map(rooms.map((room) => [room.id, room]));
    const reading: PageReading = { rooms: byId, pads: plan.pads, layout, passable, placement };
    return { plan, rooms: byId, pages: svgs.map((svg) => readLaidOutPage(svg, reading)) };
  };
};

const firstPass = (
  { engraving, layout, score }: LayoutRequest,
  run: RunPass,
): { readonly pass: Pass; readonly keepsBreaks: boolean; readonly breaksGivenUp: boolean } | null => {
  const plan: PassPlan = { mode: 'auto', breaks: null, reminders: [], pads: new Map(), isWanted: true };
  const breaks = engraving.keepBreaks ? fileBreaks(score) : null;
  if (breaks !== null) {
    const kept = run({ ...plan, breaks, mode: breaks.pages.length === 0 ? 'line' : 'encoded' });
    if (kept !== null && fitsPages(kept, layout))
      return { pass: kept, keepsBreaks: true, breaksGivenUp: false };
  }
  const pass = run(plan);
  return pass === null ? null : { pass, keepsBreaks: false, breaksGivenUp: engraving.keepBreaks };
};

/** Whether no staff hangs over the foot of a page. */
const fitsPages = ({ pages }: Pass, { heightMm }: PageLayout): boolean =>
  pages.every(({ lines }) =>
    lines.systems.every(({ staffBottom }) => staffBottom <= heightMm * SVG_UNITS_PER_MM),
  );

const countOverlaps = ({ pages }: Pass): number =>
  pages.reduce((sum, { overlaps }) => sum + overlaps.length, 0);

/** Where what was added makes a page too full, its lines stay and the pages are filled anew. */
const runFitting = (run: RunPass, plan: PassPlan, layout: PageLayout): Pass | null => {
  const pass = run(plan);
  if (pass === null || fitsPages(pass, layout)) return pass;
  const breaks = plan.breaks === null ? null : { systems: plan.breaks.systems, pages: [] };
  const refilled = run({ ...plan, breaks, mode: 'line' });
  return refilled !== null && fitsPages(refilled, layout) ? refilled : null;
};

const remindersOf = (
  { score, engraving: { settings, density } }: LayoutRequest,
  { pages }: Pass,
): number[] => {
  if (density === 'changes' || !(settings.systemStart || settings.pageStart)) return [];
  const starts = systemStarts(score, pages);
  return settings.systemStart ? starts.flat() : starts.flatMap((systems) => systems.slice(0, 1));
};

/** What is to be tried after a pass; null where it left nothing to fix. */
const nextPass = (
  request: LayoutRequest,
  pass: Pass,
  reminders: readonly number[],
  mayTurn: boolean,
): PassPlan | null => {
  const { score, engraving, layout } = request;
  const starts = systemStarts(score, pass.pages);
  const moved = mayTurn ? movePageTurns(score, engraving.pageTurns, layout, pass.pages) : null;
  const needsReminders = reminders.length > 0 && pass.plan.reminders.length === 0;
  if (moved === null && !needsReminders && countOverlaps(pass) === 0) return null;
  const pages = moved ?? starts.map((systems) => systems[0]!);
  const breaks = { systems: starts.flat().filter((bar) => bar > 0), pages: pages.filter((bar) => bar > 0) };
  const overlaps = pass.pages.flatMap((page) => page.overlaps);
  const lines = pass.pages.flatMap((page) => roomsBySystem(page));
  const pads = padsAgainst(pass.plan.pads, overlaps, lines, engraving.placement, svgUnitsPerVu(layout));
  // With page turns at line starts the first bars of pages change, and with them the reminders.
  const wanted =
    needsReminders && engraving.settings.pageStart && !engraving.settings.systemStart ? pages : reminders;
  return { mode: 'encoded', breaks, reminders: wanted, pads, isWanted: moved !== null || needsReminders };
};

const roomsBySystem = ({ lines, placed }: LaidOutPage): ReservedSpace[][] =>
  lines.systems.map((_, i) => placed.filter(({ system }) => system === i).map(({ room }) => room));

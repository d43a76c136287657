import {
  fail,
  formatBeat,
  type HarpPart,
  type HarpPlan,
  joinHarps,
  ok,
  type Result,
  type Score,
} from '../../engine/index.ts';
import { type ChosenCues, chooseCues, NO_CUES } from '../cues/choose-cues.ts';
import type { Drawing } from '../draw/drawing.ts';
import { drawPlaceNumber } from '../draw/place-number.ts';
import { blankGroup, countGroup, placeNumberGroup } from '../draw/svg-groups.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { RehearsalMark } from '../geometry/rehearsal-marks.ts';
import { pageLayoutOf } from '../layout/breaks/page-layout.ts';
import type { PageTurn } from '../layout/breaks/page-turns.ts';
import type { Drawer } from '../layout/drawer.ts';
import { layOutHarp } from '../layout/lay-out.ts';
import type { LayoutMei } from '../layout/layout-mei.ts';
import { ALL_STAVES, type SpaceRow, type StaffRange } from '../layout/spaces/reserve-spaces.ts';
import type { Standing } from '../layout/spaces/stance.ts';
import { type Stepwise, workOut } from '../layout/stepwise.ts';
import { noteSignEdits } from '../levers/note-signs.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import { drawCount, listCounts } from '../markings/beat-counts.ts';
import {
  type DrawnMarking,
  drawPrinted,
  isDrawn,
  markingsFor,
  type PrintedMarking,
  printedGroup,
} from '../markings/printed-markings.ts';
import { STANDS_OVER, standingFinder } from '../markings/standing.ts';
import { listUnplayablePlaces, type UnplayablePlace } from '../markings/unplayable-places.ts';
import type { PlayedNotes } from '../part/signs/note-looks.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import { type FontCharacters, mergeCharacters } from '../text/embed-fonts.ts';
import { joinBeside, readBeside } from './beside-parts.ts';
import { addClosingNotes, type ClosingSection, closingHeight } from './closing-notes.ts';
import type { SpaceDrawing } from './finish-system.ts';
import { leverLegend, pedalLegend } from './legend.ts';
import { createPageFinisher, type ReadyPage } from './page-finisher.ts';
import { setPages } from './set-pages.ts';
import { turnWords } from './turn-words.ts';
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
  /** Bars (indices) with coloured letters of an analysis, which are left out, one for each. */
  readonly lettersLeftOut: readonly number[];
  readonly breaksGivenUp: boolean;
  /** The lines could not be laid out one by one. */
  readonly isWhole: boolean;
  readonly cues: ChosenCues;
  /** Bars (indices) at whose start a setting is printed in any case: the first of systems or pages. */
  readonly reminders: readonly number[];
}

/** One harp's part with its plan, to be drawn under or over others. */
export interface PlannedHarp {
  readonly score: Score;
  readonly plan: HarpPlan;
  readonly engraving: EngravingOptions;
}

/** Whether markings are shown, or a pupil is to write them. */
export type Shown = 'all' | EngravingOptions['blanks'];

/** A planned part as it stands on the pages. */
interface PlacedHarp extends PlannedHarp {
  readonly shown: Shown;
  readonly staves: StaffRange;
  /** Set before the ids of its markings. */
  readonly prefix: string;
}

/** What is drawn: the staves of one harp or of several. */
interface DrawnScore {
  readonly score: Score;
  readonly harps: readonly HarpPart[];
  readonly others: ReadonlySet<string>;
  readonly parts: readonly PlacedHarp[];
}

/**
 * Lays out and draws the score of several harps of one file, or of two players of one part, each with their markings at
 * their own staves; places that are not playable are numbered in the parts alone.
 *
 * @param parts in score order, at least one
 * @param engraving how the pages look
 * @returns as `engravePages`
 */
export const engraveTogether = (
  parts: readonly PlannedHarp[],
  engraving: EngravingOptions,
  drawer: Drawer,
): Result<EngravedPages> => {
  const { score, harps, others } = joinHarps(parts.map((part) => part.score));
  let staves = 0;
  const placed = parts.map((part, index): PlacedHarp => {
    const top = staves;
    staves += part.score.harp.staves;
    const bottom = index === parts.length - 1 ? -1 : staves - 1;
    return { ...part, shown: 'all', staves: { top, bottom }, prefix: `harp-${index + 1}-` };
  });
  return workOut(
    engrave({ score, harps, others, parts: placed }, { ...engraving, numberUnplayable: false }, drawer),
  );
};

/** What a part is printed for. */
export interface PrintRun {
  readonly shown?: Shown;
  /** What is told under the music of a part to be written in. */
  readonly task?: ClosingSection | null;
  /** How many pages stand before it in what is bound. */
  readonly pagesBefore?: number;
}

/**
 * Lays out and draws the pages of a part with all its markings, or with room for them: both look alike but for these.
 *
 * @yields pages as soon as they are drawn, each as it will most likely be
 * @returns the pages, or `layout-failed`: also where the layout lost a bar that bears a marking, since a page without it
 * would mislead
 */
export function* engravePages(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  { shown = 'all', task = null, pagesBefore = 0 }: PrintRun = {},
): Stepwise<ReadyPage, Result<EngravedPages>> {
  const beside = readBeside(score, engraving.withPart);
  if (!beside.ok) return beside;
  const part = { score, plan: harp, engraving, prefix: '', shown };
  const notes = { drawings: [], sections: task === null ? [] : [task], pagesBefore };
  const others = othersOf(score);
  if (beside.value.length === 0)
    return yield* engrave(
      { score, harps: [score.harp], others, parts: [{ ...part, staves: ALL_STAVES }] },
      engraving,
      drawer,
      notes,
    );
  const joined = joinBeside(score, beside.value);
  return yield* engrave(
    { score: joined.score, harps: joined.parts, others, parts: [{ ...part, staves: joined.harpStaves }] },
    engraving,
    drawer,
    notes,
  );
}

const othersOf = ({ share }: Score): ReadonlySet<string> => share?.others ?? new Set();

/** What stands on pages besides a plan: drawings in the music, and words after it. */
export interface PageNotes {
  readonly pagesBefore?: number;
  readonly drawings: readonly SpaceDrawing[];
  readonly sections: readonly ClosingSection[];
}

/**
 * Lays out and draws the pages of a part as its file has it, with notes on it instead of a plan.
 *
 * @returns as `engravePages`
 */
export const engraveNotes = (
  score: Score,
  notes: PageNotes,
  engraving: EngravingOptions,
  drawer: Drawer,
): Result<EngravedPages> =>
  workOut(
    engrave(
      { score, harps: [score.harp], others: othersOf(score), parts: [] },
      { ...engraving, fileMarkings: true },
      drawer,
      notes,
    ),
  );

function* engrave(
  { score, harps, others, parts }: DrawnScore,
  engraving: EngravingOptions,
  drawer: Drawer,
  notes: PageNotes = { drawings: [], sections: [] },
): Stepwise<ReadyPage, Result<EngravedPages>> {
  const layout = pageLayoutOf(engraving);
  const places = engraving.numberUnplayable
    ? parts.flatMap((part) => listUnplayablePlaces(part.score, part.plan.plan))
    : [];
  const flags = places.map((place) => drawingOfPlace(place, parts[0]!.staves));
  const counts = parts.length === 1 ? parts.flatMap((part) => countsIn(part)) : [];
  const numberOf = (bar: number): string => score.bars[bar]!.number;
  const signs = parts.flatMap((part) =>
    markingsOf(part, []).filter((marking) => marking.kind === 'lever-notes'),
  );
  const markers = parts.map((part) => ({ part, draw: markingDrawer(part, numberOf) }));
  const drawingsFor = (reminders: readonly number[]): SpaceDrawing[] => [
    ...markers.flatMap(({ part, draw }) => markingsOf(part, reminders).filter(isDrawn).map(draw)),
    ...flags,
    ...counts,
    ...notes.drawings,
  ];
  const signEdits = (mei: LayoutMei) => noteSignEdits(score, mei, signs);
  const played = joinPlayed(parts.map(({ plan }) => playedNotes(plan)));
  const chosen = parts.length === 1 ? chooseCues(parts[0]!.score, engraving, score.harp.partIds) : NO_CUES;
  const staves = parts[0]?.staves ?? ALL_STAVES;
  const cues = { cues: chosen.cues, score: parts[0]?.score ?? score, staves };
  const small = parts.length === 1 ? staves : ALL_STAVES;
  const { title, rights } = score.titles;
  const words = { title, rights, pagesBefore: notes.pagesBefore ?? 0 };
  const finisher = createPageFinisher({ engraving, words, signs, numberOf, drawingsFor });
  const sectionsFor = (
    reminders: readonly number[],
    footnotes: readonly Footnote[],
  ): readonly ClosingSection[] => {
    const printedFor = (kind: HarpPlan['kind']): readonly PrintedMarking[] =>
      parts.filter(({ plan }) => plan.kind === kind).flatMap((part) => markingsOf(part, reminders));
    const [pedals, levers] = engraving.legend ? [printedFor('pedal'), printedFor('lever')] : [[], []];
    return [
      listFootnotes(score, footnotes),
      listPlaces(places),
      ...notes.sections,
      ...(pedals.length > 0 ? [pedalLegend(pedals, places, engraving)] : []),
      ...(levers.length > 0 ? [leverLegend(levers, engraving)] : []),
    ];
  };
  const laying = layOutHarp(
    {
      score,
      harps,
      others,
      full: small,
      engraving,
      layout,
      played,
      signEdits,
      cues,
      spacesFor: drawingsFor,
      under: (reminders, footnotes) => closingHeight(sectionsFor(reminders, footnotes), layout),
    },
    drawer,
  );
  let step = laying.next();
  for (; step.done !== true; step = laying.next()) {
    const ready = finisher.drawEarly(step.value);
    if (ready !== null) yield ready;
  }
  const laidOut = step.value;
  if (!laidOut.ok) return laidOut;
  const { pages, reminders } = laidOut.value;
  const drawings = finisher.drawings(reminders);
  const finished = pages.map((held) => held.map((system) => finisher.finish(system, reminders)));
  const systems = finished.flat();
  const placed = systems.reduce((sum, { system }) => sum + system.placed.length, 0);
  const named = systems.reduce((sum, system) => sum + system.named, 0);
  const signed = signs.reduce((sum, { changes }) => sum + changes.length, 0);
  if (placed !== drawings.size || named !== signed) return fail({ code: 'layout-failed' });
  const turns = turnWords(engraving.turnWords ? laidOut.value.turns : []);
  const sections = sectionsFor(reminders, laidOut.value.footnotes);
  const under = closingHeight(sections, layout);
  const paged = setPages(finished, { ...words, turns }, layout, under);
  const closing = addClosingNotes(paged.pages, sections, layout, paged.end);
  return ok({
    ...laidOut.value,
    cues: chosen,
    pages: makeIdsUnique(closing.map(({ svg }) => svg)),
    rehearsals: paged.rehearsals,
    characters: mergeCharacters(closing.map(({ characters }) => characters)),
    missing: [...new Set(closing.flatMap(({ missing }) => missing))],
    crowded: pages
      .map((held, i) => ({ page: i + 1, overlaps: held.flatMap(({ overlaps }) => overlaps).length }))
      .filter(({ overlaps }) => overlaps > 0),
  });
}

/** A part's markings, under ids that no other part on the pages has. */
const markingsOf = (
  { score, plan, engraving, prefix }: PlacedHarp,
  reminders: readonly number[],
): readonly PrintedMarking[] =>
  markingsFor(score, plan, engraving, reminders).map((marking) => ({
    ...marking,
    id: prefix + marking.id,
  }));

const joinPlayed = (parts: readonly PlayedNotes[]): PlayedNotes => ({
  respellings: parts.flatMap(({ respellings }) => respellings),
  omitted: parts.flatMap(({ omitted }) => omitted),
});

/** The footnotes of the file, each with its bar. */
const listFootnotes = (score: Score, footnotes: readonly Footnote[]): ClosingSection => ({
  heading: 'Notes',
  notes: footnotes.map(({ bar, text }) => ({
    art: null,
    text: `Bar ${printedBarNumber(score.bars[bar]!.number)}: ${text}`,
  })),
});

/** The key to the numbers of places that are not playable as printed. */
const listPlaces = (places: readonly UnplayablePlace[]): ClosingSection => ({
  heading: 'Not playable as printed',
  notes: places.map(({ barNumber, beat, number, sentences }) => ({
    art: drawPlaceNumber(number),
    text: `Bar ${printedBarNumber(barNumber)}, beat ${formatBeat(beat)}: ${sentences.join(' ')}`,
  })),
});

/** Says how the markings of a part are drawn, and where. */
const markingDrawer = (
  { score, engraving, staves, shown }: PlacedHarp,
  numberOf: (bar: number) => string,
): ((marking: DrawnMarking) => SpaceDrawing) => {
  const standingOf = standingFinder(score, engraving.marksAt);
  return (marking) =>
    drawingOf(marking, numberOf(marking.bar), engraving, { standing: standingOf(marking), staves, shown });
};

/** Chord symbols and tempo words keep clear of what stands before the first note. */
const UNDER_START_VU = 1.2;

/** On which side of a marking its moment is. */
const SIDE_AT_MOMENT = { before: 'right', from: 'left', over: 'centre' } as const;

const drawingOf = (
  marking: DrawnMarking,
  barNumber: string,
  engraving: EngravingOptions,
  {
    standing,
    staves,
    shown,
  }: { readonly standing: Standing; readonly staves: StaffRange; readonly shown: Shown },
): SpaceDrawing => {
  const art = drawPrinted(marking, engraving, SIDE_AT_MOMENT[standing.stance]);
  const isStart = marking.kind === 'levers' || marking.kind === 'tuning';
  const { widthVu, heightVu } = art.box;
  return {
    ...marking,
    ...standing,
    staves,
    line: isStart ? 'start' : 'markings',
    box: { widthVu, heightVu: heightVu + (isStart ? UNDER_START_VU : 0) },
    draw: (place) =>
      // How strings are tuned is no question.
      shown === 'all' || marking.kind === 'tuning'
        ? printedGroup(marking, barNumber, art, place)
        : blankGroup(marking.id, shown === 'boxes' ? art.box : null, place),
  };
};

/** Notes that are played otherwise than written: on other strings, or not at all. */
export const playedNotes = (harp: HarpPlan): PlayedNotes =>
  harp.kind === 'pedal' ? harp.plan : { respellings: harp.plan.respellings, omitted: harp.omitted };

/** A sign over one harp's staves, beside no grace note. */
const signOver = (
  { id, at, bar }: Pick<SpaceDrawing, 'id' | 'at' | 'bar'>,
  line: SpaceRow,
  staves: StaffRange,
  { box }: Drawing,
  draw: SpaceDrawing['draw'],
): SpaceDrawing => ({ id, at, bar, graceNote: null, ...STANDS_OVER, line, staves, box, draw });

/** The counts over one harp's staves. */
const countsIn = ({ score, plan, engraving, staves }: PlacedHarp): readonly SpaceDrawing[] =>
  listCounts(score, plan, engraving.beatCounts).map((each) => {
    const art = drawCount(each);
    return signOver(each, 'counts', staves, art, (place) => countGroup(each.id, art, place));
  });

const drawingOfPlace = (flag: UnplayablePlace, staves: StaffRange): SpaceDrawing => {
  const art = drawPlaceNumber(flag.number);
  return signOver(flag, 'flags', staves, art, (place) => placeNumberGroup(flag, art, place));
};

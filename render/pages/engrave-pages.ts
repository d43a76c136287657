import {
  fail,
  type HarpPlan,
  joinHarps,
  nameBarIn,
  ok,
  type Result,
  type Score,
} from '../../engine/index.ts';
import { type ChosenCues, chooseCues, NO_CUES } from '../cues/choose-cues.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { RehearsalMark } from '../geometry/rehearsal-marks.ts';
import { type PageLayout, pageLayoutOf } from '../layout/breaks/page-layout.ts';
import type { PageTurn } from '../layout/breaks/page-turns.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import type { EarlyPage } from '../layout/early/early-pages.ts';
import { layOutHarp } from '../layout/lay-out.ts';
import type { LayoutRequest } from '../layout/layout-request.ts';
import type { LaidOutSystem } from '../layout/lines/laid-out-system.ts';
import { ALL_STAVES } from '../layout/spaces/reserve-spaces.ts';
import { type Stepwise, workOut } from '../layout/stepwise.ts';
import { noteSignEdits } from '../levers/note-signs.ts';
import type { PlayedNotes } from '../part/signs/note-looks.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import { idSeparator } from '../printed/unique-ids.ts';
import { type FontCharacters, mergeCharacters } from '../text/embed-fonts.ts';
import { joinBeside, readBeside } from './beside-parts.ts';
import type { DrawnScore, PageNotes, PlacedHarp, PlannedHarp, Shown } from './drawn-score.ts';
import { entriesAfterRests } from './entries-after-rests.ts';
import type { FinishedLine } from './finish-system.ts';
import { listDrawings, type PageDrawings } from './page-drawings.ts';
import { createPageFinisher, type PageFinisher, type ReadyPage } from './page-finisher.ts';
import { type LinePlace, type PageWords, setPages } from './set-pages.ts';
import { addClosingNotes, type ClosingSection, closingHeight } from './words/closing-notes.ts';
import { listPlacesOfHarps, pageSections } from './words/page-sections.ts';
import { headWords } from './words/running-head.ts';
import { turnWords } from './words/turn-words.ts';

/** The pages of a part, and what there is to say about them. */
export interface EngravedPages {
  /** SVG documents. */
  readonly pages: readonly string[];
  /** What the pages need of the text font. */
  readonly characters: FontCharacters;
  readonly turns: readonly PageTurn[];
  readonly rehearsals: readonly RehearsalMark[];
  readonly lines: readonly LinePlace[];
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

/**
 * Lays out and draws the score of several harps of one file, or of two players of one part, each with their markings at
 * their own staves; places that are not playable are numbered in the parts alone, and told by the harp's name under the last
 * line.
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
  const sections = engraving.numberUnplayable ? [listPlacesOfHarps(parts, engraving)] : [];
  return workOut(
    engrave({ score, harps, others, parts: placed }, { ...engraving, numberUnplayable: false }, drawer, {
      drawings: [],
      sections,
    }),
  );
};

/** Between the staves of a harp that is written on one is below it, where there is room outwards. */
const placedBy = ({ harp }: Score, engraving: EngravingOptions): EngravingOptions =>
  engraving.placement === 'between' && harp.staves === 1 ? { ...engraving, placement: 'below' } : engraving;

/** What a part is printed for. */
export interface PrintRun {
  readonly shown?: Shown;
  /** How many pages stand before it in what is bound; null where that has page numbers of its own. */
  readonly pagesBefore?: number | null;
  /** The bar (an index) whose page is told first. */
  readonly first?: number | null;
  /** Whether somebody waits for the first page; else nothing is laid out before its turn. */
  readonly early?: boolean;
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
  asked: EngravingOptions,
  drawer: Drawer,
  { shown = 'all', pagesBefore = 0, first = null, early = false }: PrintRun = {},
): Stepwise<ReadyPage, Result<EngravedPages>> {
  const engraving = placedBy(score, asked);
  const beside = readBeside(score, engraving.withPart);
  if (!beside.ok) return beside;
  const part = { score, plan: harp, engraving, prefix: '', shown };
  const notes = { drawings: [], sections: [], pagesBefore };
  const others = othersOf(score);
  if (beside.value.length === 0)
    return yield* engrave(
      { score, harps: [score.harp], others, parts: [{ ...part, staves: ALL_STAVES }] },
      engraving,
      drawer,
      notes,
      { first, early },
    );
  const joined = joinBeside(score, beside.value);
  return yield* engrave(
    { score: joined.score, harps: joined.parts, others, parts: [{ ...part, staves: joined.harpStaves }] },
    engraving,
    drawer,
    notes,
    { first, early },
  );
}

const othersOf = ({ share }: Score): ReadonlySet<string> => share?.others ?? new Set();

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

const NO_NOTES: PageNotes = { drawings: [], sections: [] };

/** What is waited for before all pages are there. */
type Haste = Required<Pick<PrintRun, 'first' | 'early'>>;

const AT_ONCE: Haste = { first: null, early: false };

function* engrave(
  drawn: DrawnScore,
  engraving: EngravingOptions,
  drawer: Drawer,
  notes: PageNotes = NO_NOTES,
  { first, early }: Haste = AT_ONCE,
): Stepwise<ReadyPage, Result<EngravedPages>> {
  const { parts, score } = drawn;
  const numberOf = nameBarIn(score);
  const drawings = listDrawings(drawn, engraving, notes, numberOf);
  const cues = parts.length === 1 ? chooseCues(parts[0]!.score, engraving, score.harp.partIds) : NO_CUES;
  const words = {
    ...{
      head: headWords(score.titles, score.harp.name),
      rights: score.titles.rights,
      language: engraving.language,
    },
    pagesBefore: notes.pagesBefore === undefined ? 0 : notes.pagesBefore,
  };
  const finisher = createPageFinisher({ engraving, words, numberOf, drawings });
  const sectionsFor: SectionsFor = (reminders, footnotes) =>
    pageSections(score, drawings, notes, engraving, { reminders, footnotes });
  const request = layoutRequest(drawn, engraving, drawings, cues, sectionsFor);
  const laying = layOutHarp({ ...request, early }, drawer);
  const laidOut = yield* drawAsLaid(laying, finisher, first);
  if (!laidOut.ok) return laidOut;
  const finished = finisher.finishAll(laidOut.value);
  if (finished === null) return fail({ code: 'layout-failed' });
  const turns = turnWords(engraving.turnWords ? laidOut.value.turns : [], engraving);
  const sections = sectionsFor(laidOut.value.reminders, laidOut.value.footnotes);
  const set = setWithNotes(finished, { ...words, turns }, sections, pageLayoutOf(engraving));
  return ok({ ...laidOut.value, ...set, cues, crowded: crowdedPages(laidOut.value.pages) });
}

/**
 * Draws pages as they are laid out.
 *
 * @param first the bar whose page is told before those that stand before it: these are drawn, since ids are unique from the
 * first page on, and wait; all of them where it stands on the last page, which is not early
 */
function* drawAsLaid<T>(
  laying: Stepwise<EarlyPage, T>,
  finisher: Pick<PageFinisher, 'drawEarly'>,
  first: number | null,
): Stepwise<ReadyPage, T> {
  let waiting: ReadyPage[] = [];
  let step = laying.next();
  for (; step.done !== true; step = laying.next()) {
    const ready = finisher.drawEarly(step.value);
    if (ready === null) continue;
    if (first !== null && step.value.nextBar <= first) {
      waiting.push(ready);
      continue;
    }
    yield ready;
    yield* waiting;
    waiting = [];
  }
  return step.value;
}

type SectionsFor = (
  reminders: readonly number[],
  footnotes: readonly Footnote[],
) => readonly ClosingSection[];

const layoutRequest = (
  { harps, others, parts, score }: DrawnScore,
  engraving: EngravingOptions,
  { drawings, markings, signs }: PageDrawings,
  { cues }: ChosenCues,
  sectionsFor: SectionsFor,
): Omit<LayoutRequest, 'early'> => {
  const layout = pageLayoutOf(engraving);
  const staves = parts[0]?.staves ?? ALL_STAVES;
  return {
    score,
    harps,
    others,
    full: parts.length === 1 ? staves : ALL_STAVES,
    engraving,
    layout,
    played: joinPlayed(parts.map(({ plan }) => playedNotes(plan))),
    signEdits: (mei) => noteSignEdits(score, mei, signs),
    signIds: new Set(signs.flatMap(({ changes }) => changes.map(({ id }) => id))),
    cues: { cues, score: parts[0]?.score ?? score, staves },
    leftOut: [],
    // In the score of several harps one comes in while another plays.
    entries:
      parts.length === 1
        ? markings([]).flatMap((each) => entriesAfterRests(each.part.score, each.markings, engraving))
        : [],
    spacesFor: drawings,
    under: keepLast((reminders, footnotes) => closingHeight(sectionsFor(reminders, footnotes), layout)),
  };
};

/** What stands under the music is asked for again and again while lines are laid out. */
const keepLast = (work: LayoutRequest['under']): LayoutRequest['under'] => {
  let last: { readonly reminders: string; readonly height: number } | null = null;
  return (reminders, footnotes) => {
    const height = last?.reminders === `${reminders}` ? last.height : work(reminders, footnotes);
    last = { reminders: `${reminders}`, height };
    return height;
  };
};

/** Sets finished lines on pages, and what is told under them. */
const setWithNotes = (
  finished: readonly (readonly FinishedLine[])[],
  words: PageWords,
  sections: readonly ClosingSection[],
  layout: PageLayout,
): Pick<EngravedPages, 'pages' | 'rehearsals' | 'lines' | 'characters' | 'missing'> => {
  const paged = setPages(finished, words, layout, closingHeight(sections, layout));
  const closing = addClosingNotes(paged.pages, sections, layout, {
    free: paged.end,
    language: words.language,
  });
  return {
    pages: closing.map(idSeparator()),
    rehearsals: paged.rehearsals,
    lines: paged.lines,
    characters: mergeCharacters(closing.map(({ characters }) => characters)),
    missing: [...new Set(closing.flatMap(({ missing }) => missing))],
  };
};

const crowdedPages = (pages: readonly (readonly LaidOutSystem[])[]): EngravedPages['crowded'] =>
  pages
    .map((held, i) => ({ page: i + 1, overlaps: held.flatMap(({ overlaps }) => overlaps).length }))
    .filter(({ overlaps }) => overlaps > 0);

const joinPlayed = (parts: readonly PlayedNotes[]): PlayedNotes => ({
  respellings: parts.flatMap(({ respellings }) => respellings),
  omitted: parts.flatMap(({ omitted }) => omitted),
});

/** Notes that are played otherwise than written: on other strings, or not at all. */
export const playedNotes = (harp: HarpPlan): PlayedNotes =>
  harp.kind === 'pedal' ? harp.plan : { respellings: harp.plan.respellings, omitted: harp.omitted };

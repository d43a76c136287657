import {
  type HarpFinding,
  type HarpPlan,
  ok,
  type Remark,
  type Result,
  type Score,
} from '../engine/index.ts';
import type { AnnotateForm, Annotation, PagedAnnotation } from './annotation.ts';
import { drawCard } from './card/summary-card.ts';
import {
  checkEngraving,
  completeEngraving,
  type EngravingChoice,
  type EngravingOptions,
  paperSize,
} from './engraving-options.ts';
import { engraveExercise } from './exercise/exercise-edition.ts';
import { collectFacts } from './facts/part-facts.ts';
import { type Drawer, startDrawer } from './layout/drawer.ts';
import { type Stepwise, workOut } from './layout/stepwise.ts';
import { listUnplayablePlaces } from './markings/unplayable-places.ts';
import { bindMovements, type DrawnMovement, pagesWithBlank } from './movements/bind-movements.ts';
import type { ClassPiece } from './pack/front-sheets.ts';
import { readBookmarks } from './pages/bookmarks.ts';
import { documentDate } from './pages/document-date.ts';
import type { PlannedHarp } from './pages/drawn-score.ts';
import { engravePages, engraveTogether, type PrintRun } from './pages/engrave-pages.ts';
import type { ReadyPage } from './pages/page-finisher.ts';
import { type PaperSize, renderPdf } from './pages/pdf.ts';
import { layoutRemarks, lettersMissing, printingRemarks } from './remarks.ts';
import { type BoundPages, bindStudyEdition } from './study/study-edition.ts';
import { embedFonts, fontStyle } from './text/embed-fonts.ts';
import { LANGUAGES } from './words/language.ts';

/** Annotates scores one after the other. */
export interface Annotator {
  /** The pages of a score that the caller has read and planned. */
  readonly engrave: (
    score: Score,
    harp: HarpPlan,
    choice: EngravingChoice | undefined,
    form: AnnotateForm,
  ) => Promise<Result<Annotation>>;
  /**
   * The same as SVG, page by page: each is told as soon as it is drawn. What stands on a page may depend on the pages after
   * it, so that one that comes to look otherwise is told again: of each number the last counts. They do not bring their
   * letters.
   *
   * @param first the bar (an index) whose page is told first
   */
  readonly engravePageByPage: (
    score: Score,
    harp: HarpPlan,
    choice: EngravingChoice | undefined,
    first?: number | null,
  ) => AsyncGenerator<ReadyPage, Result<PagedAnnotation>, undefined>;
  /** A part that is to be bound with others into a class set; its edition is the part or the study edition. */
  readonly engravePiece: (
    score: Score,
    harp: HarpPlan,
    choice: EngravingChoice | undefined,
  ) => Promise<Result<ClassPiece>>;
  /**
   * All movements of one file, each read and planned by the caller, at least one: each with its own heading, on pages of its
   * own, bound as one PDF. The options of the first say what it is printed on.
   */
  readonly engraveMovements: (movements: readonly ChosenHarp[]) => Promise<Result<PrintedMovements>>;
  /**
   * The score of several harps of one file, each read and planned by the caller; at least one. The options of the first say
   * how the pages look.
   */
  readonly engraveTogether: (
    parts: readonly ChosenHarp[],
    form: Exclude<AnnotateForm, 'plan'>,
  ) => Promise<Result<HarpScore>>;
}

/** One harp's part with its plan, and how it is to look. */
export interface ChosenHarp {
  readonly score: Score;
  readonly plan: HarpPlan;
  readonly choice: EngravingChoice | undefined;
}

/** Movements bound as one. */
export interface PrintedMovements {
  readonly pdf: Uint8Array;
  /** What is known of each; its pages stand in the PDF, and are numbered through. */
  readonly movements: readonly Annotation[];
}

/** The pages of a score of several harps. */
export interface HarpScore extends Pick<Annotation, 'pages' | 'pdf'> {
  /** What the user should know about these pages; what is known of each harp is told with its part. */
  readonly remarks: readonly Remark[];
}

/** Starts an annotator with a layout engine of its own: one a thread. */
export const createAnnotator = async (): Promise<Annotator> => {
  const annotator = prepareAnnotator();
  await annotator.start();
  return annotator;
};

/** An annotator whose layout engine starts when it is told to, or else when pages are first wanted. */
export const prepareAnnotator = (): Annotator & { readonly start: () => Promise<void> } => {
  let started: Promise<Drawer> | null = null;
  const obtainDrawer = (): Promise<Drawer> => {
    started ??= startDrawer();
    return started;
  };
  return {
    start: async () => {
      await obtainDrawer();
    },
    engrave: async (score, harp, choice, form) => {
      const engraving = checkEngraving(completeEngraving(choice, harp.kind));
      return engraving.ok ? annotateScore(score, harp, engraving.value, form, obtainDrawer) : engraving;
    },
    engravePageByPage: async function* (score, harp, choice, first = null) {
      const engraving = checkEngraving(completeEngraving(choice, harp.kind));
      if (!engraving.ok) return engraving;
      return yield* annotatePageByPage(score, harp, engraving.value, await obtainDrawer(), first);
    },
    engravePiece: async (score, harp, choice) => {
      const engraving = checkEngraving(completeEngraving(choice, harp.kind));
      if (!engraving.ok) return engraving;
      const drawn = workOut(
        drawPart(score, harp, engraving.value, await obtainDrawer(), { use: 'in-class-set' }),
      );
      if (!drawn.ok) return drawn;
      const { pages, bookmarks } = drawn.value;
      return ok({ facts: collectFacts(score, harp), pages, bookmarks });
    },
    engraveMovements: async (movements) => {
      const planned: PlannedHarp[] = [];
      for (const { score, plan, choice } of movements) {
        const engraving = checkEngraving(completeEngraving(choice, plan.kind));
        if (!engraving.ok) return engraving;
        planned.push({ score, plan, engraving: engraving.value });
      }
      return drawMovements(planned, await obtainDrawer());
    },
    engraveTogether: async (parts, form) => {
      const planned: PlannedHarp[] = [];
      for (const { score, plan, choice } of parts) {
        const engraving = checkEngraving(completeEngraving(choice, plan.kind));
        if (!engraving.ok) return engraving;
        planned.push({ score, plan, engraving: engraving.value });
      }
      return drawTogether(planned, form, await obtainDrawer());
    },
  };
};

const drawTogether = async (
  parts: readonly PlannedHarp[],
  form: Exclude<AnnotateForm, 'plan'>,
  drawer: Drawer,
): Promise<Result<HarpScore>> => {
  const { engraving, score } = parts[0]!;
  const engraved = engraveTogether(parts, engraving, drawer);
  if (!engraved.ok) return engraved;
  const { pages, characters, rehearsals } = engraved.value;
  const { title, composer } = score.titles;
  const subject = parts.map((part) => part.score.harp.name).join(', ');
  const meta = { title: title || subject, author: composer, subject, date: documentDate(score) };
  const bookmarks = readBookmarks(meta.title, rehearsals);
  return ok({
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paperSize(engraving.paper), meta, bookmarks) : null,
    remarks: layoutRemarks(score, engraved.value, engraving),
  });
};

const drawMovements = async (
  planned: readonly PlannedHarp[],
  drawer: Drawer,
): Promise<Result<PrintedMovements>> => {
  const [first] = planned;
  const drawn: DrawnMovement[] = [];
  const movements: Annotation[] = [];
  let pagesBefore = 0;
  for (const { engraving, plan, score } of planned) {
    const made =
      engraving.edition === 'card'
        ? ok(drawCardEdition(score, plan, engraving))
        : workOut(drawPart(score, plan, engraving, drawer, { pagesBefore }));
    if (!made.ok) return made;
    const { bookmarks, characters, pages, remarks, turns } = made.value;
    drawn.push({ title: score.titles.subtitle, pages, characters, bookmarks });
    const told = { remarks: [...score.remarks, ...remarks], turns, pages, pdf: null };
    movements.push({ ...describeScore(score, plan), ...told });
    pagesBefore += pagesWithBlank(pages.length);
  }
  const { pages, bookmarks } = bindMovements(drawn, first!.engraving);
  const { harp, titles } = first!.score;
  const meta = {
    title: titles.title || harp.name,
    author: titles.composer,
    subject: harp.name,
    date: documentDate(first!.score),
  };
  return ok({ movements, pdf: renderPdf(pages, paperSize(first!.engraving.paper), meta, bookmarks) });
};

/** From a score and its plan to the annotated pages. */
const annotateScore = async (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  form: AnnotateForm,
  obtainDrawer: () => Promise<Drawer>,
): Promise<Result<Annotation>> => {
  const described = describeScore(score, harp);
  if (form === 'plan') {
    const remarks = [...score.remarks, ...printingRemarks(score, harp, engraving)];
    return ok({ ...described, remarks, turns: [], pages: [], pdf: null });
  }
  const drawn =
    engraving.edition === 'card'
      ? ok(drawCardEdition(score, harp, engraving))
      : workOut(drawPart(score, harp, engraving, await obtainDrawer()));
  if (!drawn.ok) return drawn;
  const { title, composer } = score.titles;
  const meta = {
    title: title || score.harp.name,
    author: composer,
    subject: score.harp.name,
    date: documentDate(score),
  };
  const { pages, characters, turns, bookmarks, paper, remarks } = drawn.value;
  const language = LANGUAGES[engraving.edition === 'part' ? 'english' : engraving.language].tag;
  return ok({
    ...described,
    remarks: [...score.remarks, ...remarks],
    turns,
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paper, { ...meta, language }, bookmarks) : null,
  });
};

const describeScore = (score: Score, harp: HarpPlan) => ({
  titles: score.titles,
  part: { ids: score.harp.partIds, name: score.harp.name },
  parts: score.parts,
  bars: score.bars.length,
  barNumbers: score.bars.map((bar) => bar.number),
  plan: harp,
  unplayablePlaces: listUnplayablePlaces<HarpFinding>(score, harp.plan),
});

async function* annotatePageByPage(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  first: number | null,
): AsyncGenerator<ReadyPage, Result<PagedAnnotation>, undefined> {
  const drawing =
    engraving.edition === 'card'
      ? cardAlone(score, harp, engraving)
      : drawPart(score, harp, engraving, drawer, { first, early: true });
  const told: string[] = [];
  let step = drawing.next();
  for (; step.done !== true; step = drawing.next()) {
    told[step.value.number - 1] = step.value.svg;
    yield step.value;
    await turnOfOthers();
  }
  if (!step.value.ok) return step.value;
  const { pages, characters, turns, remarks } = step.value.value;
  const left = pages.flatMap((svg, i) => (told[i] === svg ? [] : [{ number: i + 1, of: pages.length, svg }]));
  yield* beginWith(left, first === null ? undefined : score.bars[first]?.id);
  return ok({
    ...describeScore(score, harp),
    remarks: [...score.remarks, ...remarks],
    turns,
    pages,
    pdf: null,
    letters: await fontStyle(characters),
  });
}

/** The page with a bar, by its id, before the others. */
const beginWith = (pages: readonly ReadyPage[], bar: string | undefined): readonly ReadyPage[] => {
  const looked = bar === undefined ? undefined : pages.find(({ svg }) => svg.includes(` id="${bar}"`));
  return looked === undefined ? pages : [looked, ...pages.filter((page) => page !== looked)];
};

/** Layout never waits for anything: without this nothing else of the process would go on until the last page. */
const turnOfOthers = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

// biome-ignore lint/correctness/useYield: a card is one page
function* cardAlone(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
): Stepwise<ReadyPage, Result<DrawnEdition>> {
  return ok(drawCardEdition(score, harp, engraving));
}

/** An edition of a part, ready to be handed out. */
interface DrawnEdition extends Pick<BoundPages, 'pages' | 'characters' | 'turns' | 'bookmarks'> {
  readonly paper: PaperSize;
  readonly remarks: readonly Remark[];
}

/** What a part is bound with, and which of its pages is told first. */
interface Binding extends Pick<PrintRun, 'pagesBefore' | 'first' | 'early'> {
  readonly use?: 'alone' | 'in-class-set';
}

/** The part alone, with what is studied beside it, or to write in. @yields pages of the part alone that are ready early */
function* drawPart(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  binding: Binding = {},
): Stepwise<ReadyPage, Result<DrawnEdition>> {
  const { pagesBefore = 0 } = binding;
  const made = yield* bindEdition(score, harp, engraving, drawer, binding);
  if (!made.ok) return made;
  const { crowded, turns } = made.value;
  const bound = {
    ...made.value,
    turns: turns.map((turn) => ({ ...turn, page: turn.page + pagesBefore })),
    crowded: crowded.map((each) => ({ ...each, page: each.page + pagesBefore })),
  };
  const remarks = [
    ...printingRemarks(score, harp, engraving, bound.reminders),
    ...layoutRemarks(score, bound, engraving),
  ];
  return ok({ ...bound, paper: paperSize(engraving.paper), remarks });
}

function* bindEdition(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  { use = 'alone', ...run }: Binding,
): Stepwise<ReadyPage, Result<BoundPages>> {
  if (engraving.edition === 'exercise') return engraveExercise(score, harp, engraving, drawer, use);
  // A study edition explains the markings on a sheet of its own.
  const legend = engraving.legend && engraving.edition !== 'study';
  const drawing = engravePages(score, harp, { ...engraving, legend }, drawer, run);
  const engraved = engraving.edition === 'part' ? yield* drawing : workOut(drawing);
  if (!engraved.ok) return engraved;
  if (engraving.edition === 'study') return ok(bindStudyEdition(score, harp, engraving, engraved.value, use));
  const title = score.titles.title || score.harp.name;
  return ok({ ...engraved.value, bookmarks: readBookmarks(title, engraved.value.rehearsals) });
}

const drawCardEdition = (score: Score, harp: HarpPlan, engraving: EngravingOptions): DrawnEdition => {
  const { page, size } = drawCard(score, harp, engraving);
  return {
    pages: [page.svg],
    characters: page.characters,
    turns: [],
    bookmarks: [],
    paper: size,
    remarks: lettersMissing(page.missing),
  };
};

import { type HarpPlan, ok, type Result, type Score } from '../engine/index.ts';
import type { AnnotateForm, Annotation, PagedAnnotation } from './annotation.ts';
import { annotatePageByPage } from './editions/annotate-page-by-page.ts';
import { annotateScore } from './editions/annotate-score.ts';
import { drawPart } from './editions/draw-edition.ts';
import {
  drawMovements,
  drawTogether,
  type HarpScore,
  type PrintedMovements,
} from './editions/several-scores.ts';
import {
  checkEngraving,
  completeEngraving,
  type EngravingChoice,
  type EngravingOptions,
} from './engraving-options.ts';
import { collectFacts } from './facts/part-facts.ts';
import { type Drawer, startDrawer } from './layout/drawer/drawer.ts';
import type { DrawingTask, Drawn } from './layout/drawer/drawing-task.ts';
import { drawTask, type Helper, helpedEngraver } from './layout/drawer/helper.ts';
import { workOut } from './layout/stepwise.ts';
import type { ClassPiece } from './pack/front-sheets.ts';
import type { PlannedHarp } from './pages/drawn-score.ts';
import type { ReadyPage } from './pages/page-finisher.ts';
import { readingOf } from './study/reading-sheet.ts';

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

/** An annotator whose layout engine can be shared with others. */
export interface SharedAnnotator extends Annotator {
  /** The same annotator, helped by another thread: its pages are the same to the byte. */
  readonly helpedBy: (helper: Helper) => Annotator;
  /** Draws for an annotator in another thread, with the layout engine of this one. */
  readonly lend: () => Promise<(task: DrawingTask) => Drawn>;
}

/** One harp's part with its plan, and how it is to look. */
export interface ChosenHarp {
  readonly score: Score;
  readonly plan: HarpPlan;
  readonly choice: EngravingChoice | undefined;
}

/** Starts an annotator with a layout engine of its own: one a thread. */
export const createAnnotator = async (): Promise<SharedAnnotator> => {
  const annotator = prepareAnnotator();
  await annotator.start();
  return annotator;
};

/** An annotator whose layout engine starts when it is told to, or else when pages are first wanted. */
export const prepareAnnotator = (): SharedAnnotator & { readonly start: () => Promise<void> } => {
  let started: Promise<Drawer> | null = null;
  const obtainDrawer = (): Promise<Drawer> => {
    started ??= startDrawer();
    return started;
  };
  return {
    ...annotatorWith(obtainDrawer),
    start: async () => {
      await obtainDrawer();
    },
    helpedBy: (helper) =>
      annotatorWith(async () => {
        const drawer = await obtainDrawer();
        return { ...drawer, engraver: helpedEngraver(drawer.engraver, helper) };
      }),
    lend: async () => {
      const { engraver } = await obtainDrawer();
      return (task) => drawTask(engraver, task);
    },
  };
};

const annotatorWith = (obtainDrawer: () => Promise<Drawer>): Annotator => ({
  engrave: async (score, harp, choice, form) => {
    const engraving = engravingOf(harp, choice);
    return engraving.ok ? annotateScore(score, harp, engraving.value, form, obtainDrawer) : engraving;
  },
  engravePageByPage: async function* (score, harp, choice, first = null) {
    const engraving = engravingOf(harp, choice);
    if (!engraving.ok) return engraving;
    return yield* annotatePageByPage(score, harp, engraving.value, await obtainDrawer(), first);
  },
  engravePiece: async (score, harp, choice) => {
    const engraving = engravingOf(harp, choice);
    return engraving.ok ? drawPiece(score, harp, engraving.value, await obtainDrawer()) : engraving;
  },
  engraveMovements: async (movements) => {
    const planned = plannedHarps(movements);
    return planned.ok ? drawMovements(planned.value, await obtainDrawer()) : planned;
  },
  engraveTogether: async (parts, form) => {
    const planned = plannedHarps(parts);
    return planned.ok ? drawTogether(planned.value, form, await obtainDrawer()) : planned;
  },
});

const engravingOf = (harp: HarpPlan, choice: EngravingChoice | undefined): Result<EngravingOptions> =>
  checkEngraving(completeEngraving(choice, harp.kind));

const plannedHarps = (parts: readonly ChosenHarp[]): Result<readonly PlannedHarp[]> => {
  const planned: PlannedHarp[] = [];
  for (const { score, plan, choice } of parts) {
    const engraving = engravingOf(plan, choice);
    if (!engraving.ok) return engraving;
    planned.push({ score, plan, engraving: engraving.value });
  }
  return ok(planned);
};

const drawPiece = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
): Result<ClassPiece> => {
  const drawn = workOut(drawPart(score, harp, engraving, drawer, { use: 'in-class-set' }));
  if (!drawn.ok) return drawn;
  const { pages, bookmarks } = drawn.value;
  // Other editions explain the markings on their own pages.
  const reading = engraving.edition === 'study' ? readingOf(score, harp, engraving) : null;
  return ok({ facts: collectFacts(score, harp), pages, bookmarks, reading });
};

import type { HarpPlan, PartSummary, Remark, Titles } from '../engine/index.ts';
import type { PageTurn } from './layout/breaks/page-turns.ts';
import type { ToldElsewhere } from './markings/told-elsewhere.ts';
import type { UnplayablePlace } from './markings/unplayable-places.ts';

/** The forms in which an annotated score leaves the renderer. */
export type AnnotateForm = 'pdf' | 'svg' | 'plan';

/** An annotated score: what was worked out, and the pages in the form that was asked for. */
export interface Annotation {
  readonly titles: Titles;
  readonly part: { readonly ids: readonly string[]; readonly name: string };
  readonly parts: readonly PartSummary[];
  readonly bars: number;
  /** The printed number of each bar, by its index. */
  readonly barNumbers: readonly string[];
  /** How people are told of each bar, by its index (`nameBarIn`). */
  readonly barNames: readonly string[];
  readonly plan: HarpPlan;
  /** The moves of pedals that the part tells at another beat than the plan. */
  readonly toldElsewhere: readonly ToldElsewhere[];
  readonly remarks: readonly Remark[];
  /** The places that cannot be played as printed, with the numbers that they bear on the pages. */
  readonly unplayablePlaces: readonly UnplayablePlace[];
  /** Where pages must be turned; empty for the form `plan`. */
  readonly turns: readonly PageTurn[];
  /** Standalone SVG documents, one a page; empty for the form `plan`. */
  readonly pages: readonly string[];
  /** The PDF for the form `pdf`, otherwise null. */
  readonly pdf: Uint8Array | null;
}

/** What was told page by page, as a whole. */
export interface PagedAnnotation extends Annotation {
  /** The element that brings the letters which the pages show: it belongs before the end of each. */
  readonly letters: string;
}

import { useEffect, useState } from 'preact/hooks';
import type { HarpKind } from '../../../../engine/index.ts';
import type { Choices } from '../options/choices.ts';
import type { Order, ScoreFile } from '../service/annotate-request.ts';
import type { PagesSoFar } from './drawn/coming-pages.ts';

/** Pages as they are shown. */
export interface ShownPages extends PagesSoFar {
  /** What the newest of them are drawn from. */
  readonly order: Order;
}

/**
 * How a score is looked at, as it changes. The next save of a file that is followed takes its place, and is looked at in
 * the same way: it has the view of the one before.
 */
export interface ScoreView {
  /** Whether another save was looked at before. */
  isHanded: boolean;
  /** The bar that is looked at, as an index; null where that is not known. */
  bar: number | null;
  /** Null until the first page is there. */
  shown: ShownPages | null;
  /** What was chosen for each harp. */
  readonly choices: { [harp in HarpKind]?: Choices };
  /** Null where the screen says. */
  isLarge: boolean | null;
  /** Width of a page in percent of what fills the pane. */
  zoom: number;
  /** Of the pages in their pane, in px. */
  scrollTop: number;
}

export const newView = (): ScoreView => ({
  isHanded: false,
  bar: null,
  shown: null,
  choices: {},
  isLarge: null,
  zoom: 100,
  scrollTop: 0,
});

const views = new WeakMap<ScoreFile, ScoreView>();

/** How a score is looked at; null where it is not open. */
export const viewOf = (file: ScoreFile): ScoreView | null => views.get(file) ?? null;

/** A score that was open before is opened at the bar that was looked at: an index, or null where that is not known. */
export const openAt = (file: ScoreFile, bar: number | null): void => {
  views.set(file, { ...newView(), bar });
};

/** A score takes the place of another, and is looked at in the same way. */
export const handView = (from: ScoreFile, to: ScoreFile): void => {
  const view = viewOf(from);
  if (view === null) return;
  view.isHanded = true;
  views.set(to, view);
};

/** The view of an open score. @param bars how many it has: a bar that is looked at may be gone */
export const useScoreView = (file: ScoreFile, bars: number): ScoreView => {
  const [view] = useState(() => viewOf(file) ?? newView());
  if (view.bar !== null) view.bar = Math.min(view.bar, bars - 1);
  useEffect(() => void views.set(file, view), [file]);
  return view;
};

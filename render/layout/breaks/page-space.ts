import { type PageLayout, unitOf } from './page-layout.ts';

/** What a page has room for; lengths in vu (half staff spaces). */
export interface PageSpace {
  readonly width: number;
  /** Under the running head, which every page but the first bears. */
  readonly room: number;
}

/** The running head, with the space under it. */
export const RUNNING_HEAD_VU = 7;

/** Between what two systems of a page hold, at least. */
export const GAP_VU = 4;

export const pageSpaceOf = (layout: PageLayout): PageSpace => {
  const inVu = (mm: number): number => (mm * 10) / unitOf(layout);
  return {
    width: inVu(layout.widthMm - 2 * layout.marginMm),
    room: inVu(layout.heightMm - 2 * layout.marginMm) - RUNNING_HEAD_VU,
  };
};

/** What the heading takes of the first page beyond what a running head takes of the others. */
export const headingLoss = (heading: number): number => Math.max(0, heading - RUNNING_HEAD_VU);

/**
 * A last line's height with what stands under it. Where no page holds both, that flows on to pages of its own, and the line
 * stands among others.
 */
export const withUnder = (height: number, under: number, room: number): number =>
  height + under <= room ? height + under : height;

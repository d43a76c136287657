import { linesOf, type PageLine, type PageMusic } from './page-times.ts';

const sheetsIn = (pane: HTMLElement): readonly HTMLElement[] => [
  ...pane.querySelectorAll<HTMLElement>('.sheet'),
];

/** A page, and where it stands in the window. */
export interface PageAt {
  /** From 1. */
  readonly page: number;
  readonly paper: HTMLElement;
}

/** The page at a height of the window, in px, or the nearest. */
export const pageAt = (pane: HTMLElement, y: number): PageAt | null => {
  let nearest: { readonly found: PageAt; readonly distance: number } | null = null;
  for (const sheet of sheetsIn(pane)) {
    const paper = sheet.querySelector<HTMLElement>('.paper')!;
    const { top, bottom } = paper.getBoundingClientRect();
    const distance = Math.max(top - y, y - bottom, 0);
    if (nearest !== null && distance >= nearest.distance) continue;
    nearest = { found: { page: Number(sheet.dataset.page), paper }, distance };
  }
  return nearest?.found ?? null;
};

/**
 * Reads off pages where their score times stand, each page once.
 *
 * @returns the lines of a page; none where it is not drawn
 */
export const readLines = (pane: HTMLElement, music: PageMusic): ((page: number) => readonly PageLine[]) => {
  const known = new Map<number, readonly PageLine[]>();
  return (page) => {
    const found = known.get(page);
    if (found !== undefined) return found;
    const root = pane.querySelector(`.sheet[data-page="${page}"] .paper`)?.shadowRoot ?? null;
    if (root === null || root.firstElementChild === null) return [];
    const lines = linesOf(root, music);
    known.set(page, lines);
    return lines;
  };
};

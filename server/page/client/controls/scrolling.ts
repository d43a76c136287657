const isCalm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

export const scrollBehaviour = (): ScrollBehavior => (isCalm() ? 'auto' : 'smooth');

/** Brings the middle of an element to the middle of a pane; the window stays. */
export const centreIn = (pane: Element, element: Element): void => {
  const [view, box] = [pane.getBoundingClientRect(), element.getBoundingClientRect()];
  const top = pane.scrollTop + (box.top + box.bottom - view.top - view.bottom) / 2;
  pane.scrollTo({ top, behavior: scrollBehaviour() });
};

/** Goes to a section by its heading: brings it into view and hands it the focus. */
export const goToSection = (heading: HTMLElement | null): void => {
  if (heading === null) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  scrollTo(heading, 'start');
};

/** Brings an element into view within what it scrolls in. */
export const scrollTo = (element: Element, block: ScrollLogicalPosition): void =>
  element.scrollIntoView({ block, inline: 'nearest', behavior: scrollBehaviour() });

const isCalm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

export const scrollBehaviour = (): ScrollBehavior => (isCalm() ? 'auto' : 'smooth');

/** Brings an element into view within what it scrolls in. */
export const scrollTo = (element: Element, block: ScrollLogicalPosition): void =>
  element.scrollIntoView({ block, inline: 'nearest', behavior: scrollBehaviour() });

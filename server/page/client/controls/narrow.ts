/** A window in which what is told does not stand beside the score: see the styles. */
const NARROW = '(max-width: 999px)';

export const isNarrow = (): boolean => matchMedia(NARROW).matches;

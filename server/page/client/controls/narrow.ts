/** A window in which what is told does not stand beside the score: see the styles. */
export const isNarrow = (): boolean => matchMedia('(max-width: 999px)').matches;

/** A telephone held upright, on which a table is cards: see the styles. */
export const isPhone = (): boolean => matchMedia('(max-width: 600px)').matches;

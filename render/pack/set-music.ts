/** The choices of `SetMusic`, the usual one first. */
export const SET_MUSIC = ['none', 'first-bars', 'pages'] as const;

/** How much of its tunes a set has beside its table. */
export type SetMusic = (typeof SET_MUSIC)[number];

/** How much of its tunes a set has beside its table. */
export const SET_MUSIC = ['none', 'first-bars', 'pages'] as const;

/** One of them. */
export type SetMusic = (typeof SET_MUSIC)[number];

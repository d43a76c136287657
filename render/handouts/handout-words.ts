import { namesIn } from '../../engine/index.ts';

/** The wall charts that are worked out and belong to no score, by the names that commands and addresses know them by. */
export const HANDOUTS = {
  keys: {
    title: 'Keys',
    description:
      'every major and minor key: the pedals, and for the lever harp which levers are up and what to retune',
  },
  glissandi: {
    title: 'Glissandi',
    description: 'settings that give just the notes of a chord or scale, for glissandi',
  },
  'doubled-strings': {
    title: 'Doubled strings',
    description:
      'which pitches two strings can give, with which pedals, and the settings that double three at once',
  },
  pedals: {
    title: 'Pedals and discs',
    description: 'three positions, which foot has which pedals, how a diagram is read, strings without discs',
  },
} as const satisfies Readonly<Record<string, { readonly title: string; readonly description: string }>>;

/** The name of a wall chart. */
export type HandoutName = keyof typeof HANDOUTS;

/** The names of the wall charts. */
export const HANDOUT_NAMES = namesIn(HANDOUTS);

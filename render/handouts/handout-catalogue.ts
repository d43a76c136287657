import { DOUBLED_STRINGS } from './doubled-strings.ts';
import { GLISSANDI } from './glissandi.ts';
import type { Handout } from './handout.ts';
import { KEYS } from './keys.ts';

/** The wall charts, by the names that commands and addresses know them by. */
export const HANDOUTS = {
  keys: KEYS,
  glissandi: GLISSANDI,
  'doubled-strings': DOUBLED_STRINGS,
} as const satisfies Readonly<Record<string, Handout>>;

export type HandoutName = keyof typeof HANDOUTS;

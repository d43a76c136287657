import { namesIn } from '../../engine/index.ts';
import { NAMES } from './levers/names.ts';
import { NOTES } from './levers/notes.ts';
import type { LeverLook } from './look.ts';

/** The ways to print lever changes, by the name of the option; the first is usual. */
export const LEVER_LOOKS = { names: NAMES, notes: NOTES } as const satisfies Readonly<
  Record<string, LeverLook>
>;

export type LeverLookName = keyof typeof LEVER_LOOKS;

export const LEVER_LOOK_NAMES = namesIn(LEVER_LOOKS);

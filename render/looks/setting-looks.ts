import { namesIn } from '../../engine/index.ts';
import type { SettingLook } from './look.ts';
import { DIAGRAM } from './settings/diagram.ts';
import { LETTERS_ONE_ROW } from './settings/letters-one-row.ts';
import { LETTERS_TWO_ROWS } from './settings/letters-two-rows.ts';

/** The ways to print a full setting, by the name of the option; the first is usual. */
export const SETTING_LOOKS = {
  diagram: DIAGRAM,
  'letters-one-row': LETTERS_ONE_ROW,
  'letters-two-rows': LETTERS_TWO_ROWS,
} as const satisfies Readonly<Record<string, SettingLook>>;

export type SettingLookName = keyof typeof SETTING_LOOKS;

export const SETTING_LOOK_NAMES = namesIn(SETTING_LOOKS);

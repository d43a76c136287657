import { settingItems } from '../../draw/name-items.ts';
import type { SettingLook } from '../look.ts';

/** The note names on one line, the feet parted by a divider. */
export const LETTERS_ONE_ROW: SettingLook = {
  words: { label: 'in letters, one row', meaning: 'note names on one line' },
  draw: ({ setting, ringed, naming }, pen) => pen.nameRows([settingItems(setting, ringed)], naming),
};

import { FEET } from '../../../engine/harp/setting.ts';
import { nameItems } from '../../draw/name-items.ts';
import type { SettingLook } from '../look.ts';

/** The note names of each foot on a line, the right foot above the left (Harp Notation, Sibelius Academy, Helsinki). */
export const LETTERS_TWO_ROWS: SettingLook = {
  words: { label: 'in letters, two rows', meaning: 'note names in two rows, the right foot above the left' },
  draw: ({ setting, ringed, naming }, pen) =>
    pen.nameRows(
      [FEET.right, FEET.left].map((letters) => nameItems(letters, setting, ringed)),
      naming,
    ),
};

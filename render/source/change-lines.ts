import { formatChange } from '../../engine/harp/setting.ts';
import type { Marking } from '../markings/markings.ts';

/** The changes of each foot as a line of text, the right foot's first; a foot at rest has none. */
export const changeLines = (marking: Marking & { readonly kind: 'change' }): string[] =>
  [marking.right, marking.left]
    .filter((changes) => changes.length > 0)
    .map((changes) => changes.map(({ letter, position }) => formatChange(letter, position)).join(' '));

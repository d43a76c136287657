import type { Catalogue } from '../engine/index.ts';
import { EDITION_OPTIONS } from './options/editions.ts';
import { MARKING_OPTIONS } from './options/markings.ts';
import { NOTE_OPTIONS } from './options/notes.ts';
import { OTHER_PART_OPTIONS } from './options/other-parts.ts';
import { PAPER_OPTIONS } from './options/paper.ts';

/** What a user may choose about how the printed page looks, in the order in which it is listed. */
export const ENGRAVING_CATALOGUE = {
  ...MARKING_OPTIONS,
  ...EDITION_OPTIONS,
  ...PAPER_OPTIONS,
  ...OTHER_PART_OPTIONS,
  ...NOTE_OPTIONS,
} as const satisfies Catalogue;

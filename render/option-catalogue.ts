import { LEVER_CATALOGUE } from '../engine/levers/catalogue.ts';
import type { Catalogue } from '../engine/options/describe-option.ts';
import { PEDAL_CATALOGUE } from '../engine/pedals/catalogue.ts';
import { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';

/** Every option of a plan and of its pages; each has one name among all. */
export const OPTION_CATALOGUE = {
  ...PEDAL_CATALOGUE,
  ...LEVER_CATALOGUE,
  ...ENGRAVING_CATALOGUE,
} as const satisfies Catalogue;

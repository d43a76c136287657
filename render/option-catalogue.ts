import { type Catalogue, LEVER_CATALOGUE, PEDAL_CATALOGUE, SHARING_CATALOGUE } from '../engine/index.ts';
import { ENGRAVING_CATALOGUE } from './engraving-catalogue.ts';

/** Every option of a plan and of its pages; each has one name among all. */
export const OPTION_CATALOGUE = {
  ...SHARING_CATALOGUE,
  ...PEDAL_CATALOGUE,
  ...LEVER_CATALOGUE,
  ...ENGRAVING_CATALOGUE,
} as const satisfies Catalogue;

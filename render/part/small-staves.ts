import { descendantsNamed } from '../../engine/index.ts';
import { type Edit, setAttribute } from '../edit.ts';
import type { LayoutMei } from '../layout/document/layout-mei.ts';
import { type StaffRange, stavesIn } from '../layout/spaces/reserve-spaces.ts';

/** Of a staff of full size: what is usual for the line of a soloist over an accompaniment (common practice, no source). */
const SMALL = '75%';

/** Staves that are there to be read along stand small over those of the player. */
export const smallStaffEdits = ({ root, staves, text }: LayoutMei, full: StaffRange): Edit[] => {
  const own = new Set(stavesIn(staves, full));
  return descendantsNamed(root, 'staffDef')
    .filter(({ attributes }) => staves.includes(attributes.n ?? '') && !own.has(attributes.n ?? ''))
    .map(({ span }) => setAttribute(text, span.start, 'scale', SMALL));
};

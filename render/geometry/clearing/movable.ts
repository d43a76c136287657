import type { XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import type { Shift } from '../moved-groups.ts';
import type { Margins, Ways } from './free-place.ts';

/** Groups that move as one, and where they may go. */
export interface Movable {
  readonly groups: readonly PlacedGroup[];
  /** Their ink, where the layout and their own shifts leave it. */
  readonly boxes: readonly Box[];
  /** The ways from there, the nearest first. */
  readonly ways: Ways;
  readonly margins: Margins;
  /** What they keep clear of: all that is settled, the staves besides, or the notes alone. */
  readonly clearOf: 'ink' | 'ink-and-staves' | 'notes';
  /** What they keep clear of besides, where one of these ways leads to a place for that. */
  readonly rather?: { readonly boxes: readonly Box[]; readonly ways: Ways };
  /** Where nothing is free: they stay, or go where they touch least. */
  readonly otherwise: 'stay' | 'touch-least';
}

/** A group, and how far it is moved in any case. */
export interface PlacedGroup {
  readonly group: XmlElement;
  readonly shift: Shift;
}

export const NO_SHIFT: Shift = { dx: 0, dy: 0 };

import { ROW_VU } from '../../draw/draw-rows.ts';
import { type PlacedSpace, shiftSpace } from './placed-space.ts';
import type { ReservedSpace } from './reserve-spaces.ts';

/**
 * Sets the letters of a line in the rows of their feet, the right foot's above the left's, as in the changes of both feet
 * (Harp Notation, Sibelius Academy, Helsinki): the layout sets a letter by itself halfway between. Letters with words under
 * them stay on one level.
 */
export const setInRows = (line: readonly PlacedSpace[], unitsPerVu: number): readonly PlacedSpace[] => {
  const footed = line.filter(({ room }) => room.foot !== undefined);
  const pairs = footed.filter(({ room }) => room.foot === 'both');
  const areBoth = pairs.length > 0 || new Set(footed.map(({ room }) => room.foot)).size > 1;
  if (!areBoth || line.some(({ room }) => room.headVu !== undefined)) return line;
  const upper = Math.min(...(pairs.length > 0 ? pairs : footed).map(({ box }) => box.y0));
  const topOf = (foot: ReservedSpace['foot']): number =>
    foot === 'left' ? upper + ROW_VU * unitsPerVu : upper;
  return line.map((each) =>
    each.room.foot === undefined ? each : shiftSpace(each, 0, topOf(each.room.foot) - each.box.y0),
  );
};

/** Whether a line shows the rows of both feet. */
export const showsRows = (line: readonly PlacedSpace[]): boolean =>
  line.some(({ room }) => room.foot === 'both');

/** Where a letter goes that finds no room in its row: `1` is down the page. */
export interface GivingWay {
  readonly direction: 1 | -1;
  /** In vu. */
  readonly leastVu: number;
}

/** A letter goes away from the row of the other foot, by a row at least, so that the right foot's stay above the left's. */
export const givesWay = ({ foot, headVu }: ReservedSpace, outwards: 1 | -1): GivingWay =>
  headVu !== undefined || foot === undefined || foot === 'both'
    ? { direction: outwards, leastVu: 0 }
    : { direction: foot === 'left' ? 1 : -1, leastVu: ROW_VU };

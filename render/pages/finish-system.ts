import type { DrawingPlace } from '../draw/svg-groups.ts';
import type { LaidOutSystem } from '../layout/lines/laid-out-system.ts';
import { fillGaps, type LinePicture } from '../layout/lines/line-picture.ts';
import { wordsDownOf } from '../layout/spaces/placed-space.ts';
import type { ReservedSpace } from '../layout/spaces/reserve-spaces.ts';

/** A room and what is drawn in it. */
export interface SpaceDrawing extends ReservedSpace {
  readonly draw: (place: DrawingPlace) => string;
}

/** A system ready to be set on a page: text independent of the viewer's fonts, our drawings in their rooms. */
export interface FinishedSystem extends Omit<LinePicture, 'body' | 'heading'> {
  /** SVG elements, in coordinates from the margins of the system's own drawing. */
  readonly body: string;
  readonly heading: string;
}

/** A finished system of the layout. */
export interface FinishedLine extends FinishedSystem {
  readonly system: LaidOutSystem;
}

/** What our drawings are drawn with. */
export interface Finishing {
  /** By their ids. */
  readonly drawings: ReadonlyMap<string, SpaceDrawing>;
  /** Start tags of signs that the layout drew for us, by their ids. */
  readonly signs: ReadonlyMap<string, string>;
  readonly unitsPerVu: number;
  /** Whether bar lines run behind the drawings, which then get a white ground. */
  readonly backed: boolean;
}

/** The last that was made of each line of the layout. */
const KNOWN = new WeakMap<LinePicture, { readonly fills: readonly string[]; readonly line: FinishedLine }>();

/** Puts our drawings in their rooms. A line that comes to look as it last did is the same object. */
export const finishSystem = (system: LaidOutSystem, finishing: Finishing): FinishedLine => {
  const { picture } = system;
  const fills = drawFills(system, finishing);
  const parts = [system.top, system.bottom, ...[...fills].flat()].map(String);
  const known = KNOWN.get(picture);
  if (known !== undefined && haveSameItems(known.fills, parts)) return known.line;
  const fill = (name: string): string => fills.get(name)!;
  const line: FinishedLine = {
    ...picture,
    system,
    body: fillGaps(picture.body, fill),
    heading: fillGaps(picture.heading, fill),
  };
  KNOWN.set(picture, { fills: parts, line });
  return line;
};

/** Whether two lists hold the very same things in the same order. */
export const haveSameItems = <Item>(one: readonly Item[], other: readonly Item[]): boolean =>
  one.length === other.length && one.every((item, i) => item === other[i]);

/** What goes into the gaps of a line, by their names. */
const drawFills = (
  { origin, picture, placed }: LaidOutSystem,
  { backed, drawings, signs, unitsPerVu }: Finishing,
): ReadonlyMap<string, string> =>
  new Map([
    ...placed.map(({ box, placeholder, room, wordsAside = 0 }) => {
      const place: DrawingPlace = {
        x: box.x0 - origin.x,
        y: box.y0 - origin.y,
        unitsPerVu,
        ground: backed && room.line === 'markings' ? room.box : null,
        wordsAsideVu: wordsAside / unitsPerVu,
        wordsDownVu: wordsDownOf({ room, box }, unitsPerVu),
      };
      return [placeholder.id, drawings.get(room.id)!.draw(place)] as const;
    }),
    ...picture.signs.map((id) => [id, signs.get(id)!] as const),
  ]);

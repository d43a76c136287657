import { childrenNamed, descendantsNamed, type XmlElement } from '../../engine/index.ts';
import type { DrawingPlace } from '../draw/svg-groups.ts';
import type { Edit } from '../edit.ts';
import { findRehearsalMarks, type RehearsalMark } from '../geometry/rehearsal-marks.ts';
import type { LaidOutSystem } from '../layout/laid-out-system.ts';
import type { ReservedSpace } from '../layout/spaces/reserve-spaces.ts';
import type { FontCharacters } from '../text/embed-fonts.ts';
import { finishDrawing } from '../text/finish-page.ts';

/** A room and what is drawn in it. */
export interface SpaceDrawing extends ReservedSpace {
  readonly draw: (place: DrawingPlace) => string;
}

/** A system ready to be set on a page: text independent of the viewer's fonts, our drawings in their rooms. */
export interface FinishedSystem {
  /** SVG elements, in coordinates from the margins of the system's own drawing. */
  readonly body: string;
  readonly heading: string;
  /** The outlines that it refers to, by the code point of the glyph. */
  readonly glyphs: ReadonlyMap<string, string>;
  /** Heights in the same coordinates. */
  readonly rehearsals: readonly Pick<RehearsalMark, 'text' | 'y'>[];
  readonly characters: FontCharacters;
  readonly missing: readonly string[];
}

/**
 * @param named edits of what the layout drew for us
 * @param backed whether bar lines run behind the drawings, which then get a white ground
 */
export const finishSystem = (
  system: LaidOutSystem,
  drawings: ReadonlyMap<string, SpaceDrawing>,
  named: readonly Edit[],
  unitsPerVu: number,
  backed: boolean,
): FinishedSystem => {
  const { heading, origin, moved, placed, root, svg } = system;
  const replacements = placed.map(({ room, box, placeholder }) => {
    const place: DrawingPlace = {
      x: box.x0 - origin.x,
      y: box.y0 - origin.y,
      unitsPerVu,
      ground: backed && room.line === 'markings' ? room.box : null,
    };
    return { ...placeholder.span, put: drawings.get(room.id)!.draw(place) };
  });
  const { characters, missing, read } = finishDrawing(svg, root, [...replacements, ...named], moved);
  const { inner } = descendantsNamed(root, 'g').find(({ attributes }) => attributes.class === 'page-margin')!;
  const cut = heading?.element.span ?? { start: inner.end, end: inner.end };
  return {
    body: read({ start: inner.start, end: cut.start }) + read({ start: cut.end, end: inner.end }),
    heading: read(cut),
    glyphs: readGlyphs(svg, root),
    rehearsals: findRehearsalMarks(svg, root),
    characters,
    missing,
  };
};

/** Verovio names a glyph by its code point and the drawing. */
const readGlyphs = (svg: string, root: XmlElement): Map<string, string> =>
  new Map(
    childrenNamed(root, 'defs')
      .flatMap(({ children }) => children)
      .map(({ attributes, inner }) => [
        (attributes.id ?? '').split('-')[0]!,
        svg.slice(inner.start, inner.end).trim(),
      ]),
  );

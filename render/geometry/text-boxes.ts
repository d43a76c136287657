import type { XmlElement } from '../../engine/index.ts';
import { textWidth } from '../text/glyphs.ts';
import type { Box } from '../text/outline.ts';
import { isSeen, readTextRuns } from '../text/text-runs.ts';
import { type PlacedPiece, placePieces } from '../text/text-signs.ts';

/** Heights of letters in ems of Tinos: an ascender and a descender. */
const ASCENT_EM = 0.7;
const DESCENT_EM = 0.22;

const pieceBoxes = (piece: PlacedPiece): Box[] => {
  const { x, y } = piece;
  if (piece.kind === 'sign') {
    const { box } = piece.glyph;
    const scale = piece.sizeUnits / 1000;
    return [
      { x0: x + box.x0 * scale, y0: y + box.y0 * scale, x1: x + box.x1 * scale, y1: y + box.y1 * scale },
    ];
  }
  if (piece.words === '') return [];
  const { face, sizeUnits, letterSpacing } = piece.run.style;
  const width = textWidth(piece.words, { style: face, sizeUnits }) + letterSpacing * piece.words.length;
  return [{ x0: x, y0: y - ASCENT_EM * sizeUnits, x1: x + width, y1: y + DESCENT_EM * sizeUnits }];
};

/** The boxes of a `<text>` element's words and signs that are seen, in its own coordinates. */
export const textBoxes = (svg: string, text: XmlElement): Box[] =>
  placePieces(readTextRuns(svg, text).runs.filter(isSeen)).flatMap(pieceBoxes);

import { textOutline } from '../text/glyphs.ts';
import { type Drawing, drawPath, PADDING_VU, roundUnits } from './drawing.ts';

const SIZE_VU = 3.2;
const CAP_VU = SIZE_VU * 0.66;
/** From the number to the edge of its ground. */
const INSET_VU = 0.75;

/**
 * The number of a place that cannot be played as printed: white on a black ground, so that it is taken neither for a
 * fingering nor for a bar number or rehearsal mark.
 *
 * @param until the last number where one sentence tells of several places
 */
export const drawPlaceNumber = (number: number, until = number): Drawing => {
  const told = until === number ? `${number}` : `${number}–${until}`;
  const digits = textOutline(told, { style: 'bold', sizeUnits: SIZE_VU });
  const height = CAP_VU + 2 * INSET_VU;
  const width = Math.max(height, digits.width + 2 * INSET_VU);
  const ground =
    `<rect x="${PADDING_VU}" y="${PADDING_VU}" width="${roundUnits(width)}" height="${roundUnits(height)}" ` +
    `rx="${roundUnits(height / 2)}"/>`;
  const x = PADDING_VU + (width - digits.width) / 2;
  const baseline = PADDING_VU + INSET_VU + CAP_VU;
  return {
    box: { widthVu: width + 2 * PADDING_VU, heightVu: height + 2 * PADDING_VU },
    body: `${ground}<g fill="#fff">${drawPath(digits.pathData, x, baseline, 1)}</g>`,
    text: told,
  };
};

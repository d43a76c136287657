import { escapeText } from '../edit.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import { breakTitle } from '../part/texts/title-lines.ts';

/** Size of its letters in staff heights, and at most: the lines have their place in the margin. */
const FOOT_EM = 0.3;
const LARGEST_EM_MM = 2.4;

const LINE = 1.2;

/** The rights at the foot of the first page, as the layout writes text: in the lower margin, where no music stands. */
export const rightsFoot = (rights: string, layout: PageLayout): string => {
  const widthMm = layout.widthMm - 2 * layout.marginMm;
  const emMm = Math.min(FOOT_EM * layout.staffMm, LARGEST_EM_MM);
  const size = Math.round(emMm * SVG_UNITS_PER_MM);
  const x = Math.round((widthMm / 2) * SVG_UNITS_PER_MM);
  const top = Math.round((layout.heightMm - 2 * layout.marginMm) * SVG_UNITS_PER_MM);
  const lines = breakTitle(rights, { widthMm, emMm }).map(
    (line, i) =>
      `<text font-size="0px" font-family="Times"><tspan x="${x}" y="${Math.round(top + (i + 1) * LINE * size)}" ` +
      `text-anchor="middle"><tspan font-size="${size}px">${escapeText(line)}</tspan></tspan></text>`,
  );
  return `<g xmlns="http://www.w3.org/2000/svg" class="pgFoot">${lines.join('')}</g>`;
};

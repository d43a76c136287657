import { escapeText } from '../../edit.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from '../../layout/breaks/page-layout.ts';
import { breakTitle } from '../../part/texts/title-lines.ts';

/** Size of its letters in staff heights, and at most: the lines have their place in the margin. */
const FOOT_EM = 0.3;
const LARGEST_EM_MM = 2.4;

const LINE = 1.2;

/** What stands at the foot of a page; empty for nothing. */
export interface FootWords {
  readonly rights: string;
  /** How the page is turned. */
  readonly turn: string;
}

/** Beside the word for the turn the rights have so much of the width. */
const RIGHTS_SHARE = 0.8;

/** The foot of a page, as the layout writes text: in the lower margin, where no music stands. */
export const runningFoot = ({ rights, turn }: FootWords, layout: PageLayout): string => {
  const widthMm = layout.widthMm - 2 * layout.marginMm;
  const emMm = Math.min(FOOT_EM * layout.staffMm, LARGEST_EM_MM);
  const size = Math.round(emMm * SVG_UNITS_PER_MM);
  const width = Math.round(widthMm * SVG_UNITS_PER_MM);
  const top = Math.round((layout.heightMm - 2 * layout.marginMm) * SVG_UNITS_PER_MM);
  const text = (words: string, line: number, x: number, anchor: string, ems: number, style: string): string =>
    `<text font-size="0px" font-family="Times"><tspan x="${x}" y="${Math.round(top + (line + 1) * LINE * size)}" ` +
    `text-anchor="${anchor}"><tspan font-size="${Math.round(ems * size)}px"${style}>${escapeText(words)}</tspan></tspan></text>`;
  const room = { widthMm: turn === '' ? widthMm : RIGHTS_SHARE * widthMm, emMm };
  const lines = rights === '' ? [] : breakTitle(rights, room);
  return (
    `<g xmlns="http://www.w3.org/2000/svg" class="pgFoot">` +
    lines.map((line, i) => text(line, i, Math.round(width / 2), 'middle', 1, '')).join('') +
    `${turn === '' ? '' : text(turn, 0, width, 'end', TURN_EMS, ' font-weight="bold"')}</g>`
  );
};

/** To be seen in time from a stand. */
const TURN_EMS = 1.5;

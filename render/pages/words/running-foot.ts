import { escapeText } from '../../../engine/index.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from '../../layout/breaks/page-layout.ts';
import { breakTitle, type TitleSpace } from '../../part/texts/title-lines.ts';

/** Size of its letters in staff heights, and at most: the lines have their place in the margin. */
const FOOT_EM = 0.3;
const LARGEST_EM_MM = 2.4;

const LINE = 1.2;

/** What stands at the foot of a page; empty for nothing. */
export interface FootWords {
  readonly rights: string;
  /** How the page is turned. */
  readonly turn: string;
  /** Whether what the page is bound in has a foot of its own under this one. */
  readonly hasFootBelow: boolean;
}

/** Beside the word for the turn the rights have so much of the width. */
const RIGHTS_SHARE = 0.8;

/** The foot of a page, as the layout writes text: in the lower margin, where no music stands. */
export const runningFoot = ({ hasFootBelow, rights, turn }: FootWords, layout: PageLayout): string => {
  const widthMm = layout.widthMm - 2 * layout.marginMm;
  const em = Math.round(Math.min(FOOT_EM * layout.staffMm, LARGEST_EM_MM) * SVG_UNITS_PER_MM);
  const emMm = em / SVG_UNITS_PER_MM;
  const width = Math.round(widthMm * SVG_UNITS_PER_MM);
  const top = (layout.heightMm - 2 * layout.marginMm) * SVG_UNITS_PER_MM;
  const text = (words: string, downMm: number, x: number, anchor: string, sizeMm: number, style: string) =>
    `<text font-size="0px" font-family="Times"><tspan x="${x}" y="${Math.round(Math.round(top) + downMm * SVG_UNITS_PER_MM)}" ` +
    `text-anchor="${anchor}"><tspan font-size="${Math.round(sizeMm * SVG_UNITS_PER_MM)}px"${style}>${escapeText(words)}</tspan></tspan></text>`;
  const room = { widthMm: turn === '' ? widthMm : RIGHTS_SHARE * widthMm, emMm };
  const lines =
    rights === '' ? [] : hasFootBelow ? setAbove(rights, room, layout) : setFreely(rights, room, layout);
  return (
    `<g xmlns="http://www.w3.org/2000/svg" class="pgFoot">` +
    lines
      .map(({ downMm, sizeMm, words }) => text(words, downMm, Math.round(width / 2), 'middle', sizeMm, ''))
      .join('') +
    `${turn === '' ? '' : text(turn, LINE * emMm, width, 'end', TURN_EMS * emMm, ' font-weight="bold"')}</g>`
  );
};

/** A line of the rights, and how far its letters stand below the music's place. */
interface FootLine {
  readonly words: string;
  readonly downMm: number;
  readonly sizeMm: number;
}

/** Under the last markings, in ems, as far as there is room over the edge of the paper, which printers leave white. */
const UNDER_MUSIC_EM = 1.2;
const WHITE_EDGE_MM = 5;

const setFreely = (
  rights: string,
  room: TitleSpace,
  { enlarged, marginMm }: PageLayout,
): readonly FootLine[] => {
  const { emMm } = room;
  const lines = breakTitle(rights, room);
  const spareMm = marginMm - WHITE_EDGE_MM / enlarged - (lines.length * LINE + DESCENT) * emMm;
  const under = Math.max(0, Math.min(UNDER_MUSIC_EM * emMm, spareMm));
  return lines.map((words, i) => ({ words, downMm: under + (i + 1) * LINE * emMm, sizeMm: emMm }));
};

/** From the edge of the paper to over the letters of a foot below. */
const FOOT_BELOW_MM = 7.3;

/** Closer than lines are that have the margin for themselves; below the first and under the last, in ems. */
const CLOSE_LINE = 1.1;
const ASCENT = 0.8;
const DESCENT = 0.25;

/** What is smaller than this cannot be read. */
const SMALLEST_SHARE = 0.5;

/** In letters as large as leave the foot below free. */
const setAbove = (
  rights: string,
  { emMm, widthMm }: TitleSpace,
  { enlarged, marginMm }: PageLayout,
): readonly FootLine[] => {
  const roomMm = marginMm - FOOT_BELOW_MM / enlarged;
  for (let share = 1; ; share -= 0.1) {
    const sizeMm = share * emMm;
    const lines = breakTitle(rights, { widthMm, emMm: sizeMm });
    const heightMm = (ASCENT + (lines.length - 1) * CLOSE_LINE + DESCENT) * sizeMm;
    if (heightMm <= roomMm || share <= SMALLEST_SHARE)
      return lines.map((words, i) => ({ words, downMm: (ASCENT + i * CLOSE_LINE) * sizeMm, sizeMm }));
  }
};

/** To be seen in time from a stand. */
const TURN_EMS = 1.5;

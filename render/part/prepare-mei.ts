import {
  type Bar,
  descendantsNamed,
  escapeText,
  nameBarIn,
  namedMovements,
  type Score,
} from '../../engine/index.ts';
import { cut, type Edit, insertAt, setAttribute } from '../edit.ts';
import type { PageLayout } from '../layout/breaks/page-layout.ts';
import type { LayoutMei } from '../layout/document/layout-mei.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import { breakTitle, LINE_GAP, type TitleSpace } from './texts/title-lines.ts';

/**
 * Edits that make the document a part for a stand: our heading, no names at the staves, readable bar numbers.
 *
 * @param named whether the staves keep their names: in a score of several harps
 */
export const pageEdits = (score: Score, mei: LayoutMei, layout: PageLayout, named: boolean): Edit[] => [
  ...descendantsNamed(mei.root, 'pgHead', 'pgHead2', 'pgFoot', 'pgFoot2').map((element) => cut(element.span)),
  ...headingEdits(score, mei, layout),
  ...(named ? [] : labelEdits(mei)),
  ...numbersShown(mei),
  ...rehearsalEdits(mei),
];

/** The em of Verovio's sizes of text in staff heights, measured on its pages: the usual one, 4.5 vu, and `x-large`. */
const SIDE_EM = 4.5 / 8;
const TITLE_EM = 1.5 * SIDE_EM;

/** The part on the left and the names on the right stand on the same lines. */
const SIDE_SHARE = 0.45;

/** The trade's word, which needs no translation; a file may tell where a part was copied from in the place of a name. */
const arranged = (arranger: string): string =>
  arranger === '' || /\barr|[:\d]/i.test(arranger) ? arranger : `arr. ${arranger}`;

/** What words under the title have room for. */
const underTitle = ({ widthMm, marginMm, staffMm }: PageLayout): TitleSpace => ({
  widthMm: widthMm - 2 * marginMm,
  emMm: SIDE_EM * staffMm,
});

/** The lines under the title of a part; where words have line breaks, these are kept. */
export const linesUnderTitle = (words: string, layout: PageLayout): readonly string[] =>
  words
    .split('\n')
    .filter((line) => line !== '')
    .flatMap((line) => breakTitle(line, underTitle(layout)));

/** Title, composer, arranger and part, over the first system. */
const headingEdits = (score: Score, mei: LayoutMei, layout: PageLayout): Edit[] => {
  const scoreDef = descendantsNamed(mei.root, 'scoreDef')[0];
  if (scoreDef === undefined) return [];
  const { title, subtitle, composer, arranger } = score.titles;
  const { widthMm, emMm: sideEmMm } = underTitle(layout);
  const beside = (text: string): string =>
    breakTitle(text, { widthMm: SIDE_SHARE * widthMm, emMm: sideEmMm })
      .map(escapeText)
      .join('<lb/>');
  const lines = [
    breakTitle(title, { widthMm, emMm: TITLE_EM * layout.staffMm })
      .map((line) => `<rend fontsize="x-large">${escapeText(line)}</rend>`)
      .join(LINE_GAP),
    ...linesUnderTitle(subtitle, layout).map(
      (line, i) => `${i === 0 ? LINE_GAP : '<lb/>'}<rend fontsize="normal">${escapeText(line)}</rend>`,
    ),
  ];
  const first =
    '<pgHead func="first">' +
    `<rend halign="center" valign="top">${lines.join('')}</rend>` +
    `<rend halign="left" valign="bottom">${beside(score.harp.name)}</rend>` +
    `<rend halign="right" valign="bottom">${[composer, arranged(arranger)]
      .filter((each) => each !== '')
      .map(beside)
      .join('<lb/>')}</rend>` +
    '</pgHead>';
  return [insertAt(scoreDef.inner.start, first)];
};

/** The part's name stands in the heading, not at every line. */
const labelEdits = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'staffGrp', 'staffDef').flatMap((element) => [
    ...element.children
      .filter(({ name }) => name === 'label' || name === 'labelAbbr')
      .map(({ span }) => cut(span)),
    ...['label', 'label.abbr']
      .filter((name) => element.attributes[name] !== undefined)
      .map((name) => setAttribute(text, element.span.start, name, '')),
  ]);

/** A document of others may keep the layout from printing numbers. */
const numbersShown = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'scoreDef')
    .slice(0, 1)
    .map(({ span }) => setAttribute(text, span.start, 'mnum.visible', 'true'));

/**
 * The numbers of bars as players read them: where lines begin and, where wanted, at every so many. The layout prints
 * whatever number a bar has, so that all others have none.
 *
 * @param lines bars (indices) with which lines begin, without the first
 */
export const barNumberEdits = (
  score: Score,
  mei: LayoutMei,
  { every, numerals }: BarNumbering,
  lines: ReadonlySet<number>,
): Edit[] => {
  const nameBar = nameBarIn(score);
  const isAnew = namedMovements(score).length > 0;
  const isTold = (bar: number): boolean =>
    numerals && isAnew && (bar === 0 || lines.has(bar) || score.movements.includes(bar));
  return score.bars.flatMap((bar) => {
    const measure = mei.measureOf(bar);
    const number = measure?.attributes.n ?? '';
    const printed = printedBarNumber(number) === bar.number ? bar.number : countedNumber(score, bar);
    const begins = bar.index === 0 ? printed !== '1' : lines.has(bar.index);
    const counted = begins || isCounted(printed, every) ? printed : '';
    const shown = isTold(bar.index) ? nameBar(bar.index) : counted;
    return measure === undefined || shown === number
      ? []
      : [setAttribute(mei.text, measure.span.start, 'n', shown)];
  });
};

/** The number of a bar that the file does not number so: none for an upbeat, and none for what goes on from the bar before. */
const countedNumber = ({ bars }: Score, { index, number }: Bar): string =>
  number === '0' || bars[index - 1]?.number === number ? '' : number;

export interface BarNumbering {
  /** Every so many bars have a number; null for lines alone. */
  readonly every: number | null;
  /** Of several movements the number over a line tells which it is in: `II 12`, as sheets beside the part name it. */
  readonly numerals: boolean;
}

const isCounted = (printed: string, every: number | null): boolean =>
  every === 1 || (every !== null && /^\d+$/.test(printed) && Number(printed) % every === 0);

/** At the start of a line a rehearsal mark without a place takes the bar number away: over the first beat it does not. */
const rehearsalEdits = ({ root, text }: LayoutMei): Edit[] =>
  descendantsNamed(root, 'reh')
    .filter(({ attributes }) => attributes.tstamp === undefined && attributes.startid === undefined)
    .map(({ span }) => setAttribute(text, span.start, 'tstamp', '1'));

/** Breaks that the page shows are those of the layout: the document's own go when ours are written. */
export const ownBreakEdits = (mei: LayoutMei): Edit[] =>
  descendantsNamed(mei.root, 'sb', 'pb').map(({ span }) => cut(span));

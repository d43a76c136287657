import type { Score } from '../../engine/score/model.ts';
import { descendantsNamed } from '../../engine/xml/tree.ts';
import { printedBarNumber } from '../bar-number.ts';
import { cut, type Edit, escapeText, insertAt, setAttribute } from '../edit.ts';
import type { LayoutMei } from './layout-mei.ts';
import type { PageLayout } from './page-layout.ts';
import { breakTitle, shortenTitle } from './title-lines.ts';

/** Edits that make the document a part for a stand: our heading, no names at the staves, readable bar numbers. */
export const pageEdits = (score: Score, mei: LayoutMei, layout: PageLayout): Edit[] => [
  ...descendantsNamed(mei.root, 'pgHead', 'pgHead2', 'pgFoot', 'pgFoot2').map((element) => cut(element.span)),
  ...headingEdits(score, mei, layout),
  ...labelEdits(mei),
  ...barNumberEdits(score, mei),
];

/** The em of Verovio's sizes of text in staff heights, measured on its pages: `x-large` and `small`. */
const TITLE_EM = 0.69;
const HEAD_EM = 0.37;

/** The layout sets lines of text close: a small empty one keeps a line off the descenders of the one above. */
const LINE_GAP = '<lb/><rend fontsize="40%">\u00a0</rend><lb/>';

/** The page's number stands on the same line. */
const HEAD_SHARE = 0.85;

/** Title, composer and part; on later pages the title and the page's number. */
const headingEdits = (score: Score, mei: LayoutMei, { widthMm, marginMm, staffMm }: PageLayout): Edit[] => {
  const scoreDef = descendantsNamed(mei.root, 'scoreDef')[0];
  if (scoreDef === undefined) return [];
  const { title, subtitle, composer } = score.titles;
  const shortTitle = shortenTitle(title, {
    widthMm: HEAD_SHARE * (widthMm - 2 * marginMm),
    emMm: HEAD_EM * staffMm,
  });
  const lines = [
    breakTitle(title, { widthMm: widthMm - 2 * marginMm, emMm: TITLE_EM * staffMm })
      .map((line) => `<rend fontsize="x-large">${escapeText(line)}</rend>`)
      .join(LINE_GAP),
    ...(subtitle === '' ? [] : [`${LINE_GAP}<rend fontsize="normal">${escapeText(subtitle)}</rend>`]),
  ];
  const first =
    '<pgHead func="first">' +
    `<rend halign="center" valign="top">${lines.join('')}</rend>` +
    `<rend halign="left" valign="bottom">${escapeText(score.harp.name)}</rend>` +
    `<rend halign="right" valign="bottom">${escapeText(composer)}</rend>` +
    '</pgHead>';
  const others =
    '<pgHead func="all">' +
    `<rend halign="left" fontsize="small">${escapeText(shortTitle)}</rend>` +
    '<rend halign="right" fontsize="small"><num label="page">#</num></rend>' +
    '</pgHead>';
  return [insertAt(scoreDef.inner.start, first + others)];
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

const barNumberEdits = (score: Score, mei: LayoutMei): Edit[] =>
  score.bars.flatMap((bar) => {
    const measure = mei.measureOf(bar);
    const number = measure?.attributes.n ?? '';
    const printed = printedBarNumber(number);
    return measure === undefined || printed === number
      ? []
      : [setAttribute(mei.text, measure.span.start, 'n', printed)];
  });

/** Breaks that the page shows are those of the layout: the document's own go when ours are written. */
export const ownBreakEdits = (mei: LayoutMei): Edit[] =>
  descendantsNamed(mei.root, 'sb', 'pb').map(({ span }) => cut(span));

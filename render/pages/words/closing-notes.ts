import { escapeText } from '../../../engine/index.ts';
import type { Drawing } from '../../draw/drawing.ts';
import { roundUnits } from '../../draw/drawing.ts';
import { type PageLayout, SVG_UNITS_PER_MM, svgUnitsPerVu } from '../../layout/breaks/page-layout.ts';
import { createMemory } from '../../layout/drawer/drawing-memory.ts';
import { breakLines, type TitleSpace } from '../../part/texts/title-lines.ts';
import { type FinishedPage, finishPage } from '../../text/finish-page.ts';
import { LANGUAGES, type Language } from '../../words/language.ts';

/** What is told under the music, after its last line. */
export interface ClosingSection {
  readonly heading: string;
  readonly notes: readonly ClosingNote[];
}

export interface ClosingNote {
  /** What the page shows, to be explained; null where the words stand alone. */
  readonly art: Drawing | null;
  readonly text: string;
}

/** The em of the words in staff heights, as that of the names beside the title. */
const EM = 0.46;
const LINE = 1.25;
const SECTION_GAP = 0.9;
const AFTER_ART = 0.8;
/** Between what explains a sign of the page and words that stand alone, as a caution does. */
const WORDS_ALONE_GAP = 0.6;
/** Of the size that a drawing has in the music. */
const ART_SCALE = 0.8;

/** One note, or a heading, with the height that it takes. Lengths in the page's units. */
interface Row {
  readonly art: Drawing | null;
  readonly lines: readonly string[];
  readonly bold: boolean;
  readonly gapBefore: number;
  readonly height: number;
}

/** The height of all sections under one another with the space before them, in the page's units; 0 where there are none. */
export const closingHeight = (sections: readonly ClosingSection[], layout: PageLayout): number => {
  if (sections.every(({ notes }) => notes.length === 0)) return 0;
  const size = sizesOf(sections, layout);
  return heightOfRows(sections.flatMap((section) => rowsOf(section, size))) + size.em;
};

/**
 * Writes sections under the music of the last page, as far as there is room, and the rest on further pages.
 *
 * @param place where the last page is free below its music, from its upper edge in the page's units
 */
export const addClosingNotes = (
  pages: readonly FinishedPage[],
  sections: readonly ClosingSection[],
  layout: PageLayout,
  { free, language }: { readonly free: number; readonly language: Language },
): FinishedPage[] => {
  if (sections.every(({ notes }) => notes.length === 0)) return [...pages];
  const margin = layout.marginMm * SVG_UNITS_PER_MM;
  const bottom = layout.heightMm * SVG_UNITS_PER_MM - margin;
  const size = sizesOf(sections, layout);
  const lists = sections.map((section) => rowsOf(section, size));
  const [onLast = [], ...further] = fillPages(lists, [bottom - free - size.em, bottom - margin]);
  const last = pages.at(-1)!;
  return [
    ...pages.slice(0, -1),
    onLast.length === 0 ? last : withBlock(last, block(onLast, free + size.em, size)),
    ...further.map((each, i) => withBlock(emptyPage(layout, i, language), block(each, margin, size))),
  ];
};

interface Sizes {
  readonly em: number;
  /** From line to line, in the page's units. */
  readonly line: number;
  readonly unitsPerVu: number;
  readonly left: number;
  readonly textLeft: number;
  readonly textWidth: number;
  readonly layout: PageLayout;
}

const sizesOf = (sections: readonly ClosingSection[], layout: PageLayout): Sizes => {
  const em = EM * layout.staffMm * SVG_UNITS_PER_MM;
  const unitsPerVu = svgUnitsPerVu(layout) * ART_SCALE;
  const left = layout.marginMm * SVG_UNITS_PER_MM;
  const arts = sections.flatMap(({ notes }) => notes.flatMap(({ art }) => art ?? []));
  const widest = Math.max(0, ...arts.map(({ box }) => box.widthVu)) * unitsPerVu;
  const textLeft = left + widest + AFTER_ART * em;
  const textWidth = layout.widthMm * SVG_UNITS_PER_MM - left - textLeft;
  return { em, line: LINE * em, unitsPerVu, left, textLeft, textWidth, layout };
};

const rowsOf = ({ heading, notes }: ClosingSection, { em, line, textWidth, unitsPerVu }: Sizes): Row[] => {
  const room = { widthMm: textWidth / SVG_UNITS_PER_MM, emMm: em / SVG_UNITS_PER_MM };
  const head: Row = {
    art: null,
    lines: [heading],
    bold: true,
    gapBefore: SECTION_GAP * em,
    height: line,
  };
  const rows = notes.map(({ art, text }, i): Row => {
    const lines = breakNote(text, room);
    const artHeight = art === null ? 0 : art.box.heightVu * unitsPerVu;
    const gapBefore = art === null && notes[i - 1]?.art ? WORDS_ALONE_GAP * em : 0;
    return { art, lines, bold: false, gapBefore, height: Math.max(lines.length * line, artHeight) };
  });
  return notes.length === 0 ? [] : [head, ...rows];
};

/** Most notes are those of the last plan, and their lines are asked for several times. */
const BROKEN = createMemory<readonly string[]>(4000, (lines) => lines.length);

const breakNote = (text: string, room: TitleSpace): readonly string[] => {
  const key = JSON.stringify([room, text]);
  const known = BROKEN.find(key) ?? breakLines(text, room);
  BROKEN.keep(key, known);
  return known;
};

/** A page that was filled to its end with these rows in mind is out by no more, in the page's units. */
const ROUNDING = 1;

/** So few rows at the end of a list would be a page of their own for nearly nothing. */
const FEWEST_ROWS = 4;

/**
 * Rows by pages: of the first height, then all of the second. A list that does not fit under what is there goes to the next
 * page as a whole where that holds it, and a longer one goes on there with some rows at least. A row that is higher than a
 * page gets one of its own.
 *
 * @param lists the rows of each section
 */
const fillPages = (
  lists: readonly (readonly Row[])[],
  [first, others]: readonly [number, number],
): Row[][] => {
  const pages: Row[][] = [[]];
  let left = first + ROUNDING;
  const turn = (): void => {
    if (pages.length > 1 && pages.at(-1)!.length === 0) return;
    pages.push([]);
    left = others + ROUNDING;
  };
  const set = (row: Row): void => {
    pages.at(-1)!.push(row);
    left -= row.gapBefore + row.height;
  };
  for (const rows of lists) {
    const isWhole = heightOfRows(rows) <= others + ROUNDING;
    if (isWhole && heightOfRows(rows) > left) turn();
    rows.forEach((row, i) => {
      // A heading goes with its first note, and the last notes with each other.
      const kept = row.bold ? rows.slice(i, i + 2) : i === rows.length - FEWEST_ROWS ? rows.slice(i) : [row];
      if (!isWhole && heightOfRows(heightOfRows(kept) > others ? [row] : kept) > left) turn();
      set(row);
    });
  }
  return pages;
};

const heightOfRows = (rows: readonly Row[]): number =>
  rows.reduce((sum, { gapBefore, height }) => sum + gapBefore + height, 0);

const block = (rows: readonly Row[], top: number, size: Sizes): FinishedPage => {
  const { em, line: leading, left, textLeft, unitsPerVu, layout } = size;
  let y = top;
  const body = rows.map((row) => {
    y += row.gapBefore;
    const start = y;
    y += row.height;
    const artHeight = (row.art?.box.heightVu ?? 0) * unitsPerVu;
    // A drawing stands beside the first line, and lines beside the middle of a drawing that is higher than they are.
    const artTop = start + Math.max(0, (leading - artHeight) / 2);
    const textTop = start + Math.max(0, (artHeight - row.lines.length * leading) / 2);
    const art =
      row.art === null
        ? ''
        : `<g transform="translate(${roundUnits(left)} ${roundUnits(artTop)}) scale(${roundUnits(unitsPerVu)})">${row.art.body}${row.art.words ?? ''}</g>`;
    const x = row.bold ? left : textLeft;
    return (
      art + row.lines.map((line, i) => textAt(line, x, textTop + em + i * leading, em, row.bold)).join('')
    );
  });
  const [width, height] = [layout.widthMm, layout.heightMm].map((mm) => mm * SVG_UNITS_PER_MM);
  return finishPage(
    `<svg class="closing-notes" viewBox="0 0 ${width} ${height}" xmlns="http://www.w3.org/2000/svg" color="black">${body.join('')}</svg>`,
  );
};

const textAt = (text: string, x: number, y: number, em: number, bold: boolean): string =>
  `<text x="${roundUnits(x)}" y="${roundUnits(y)}" font-family="Times" font-size="${roundUnits(em)}px"${bold ? ' font-weight="bold"' : ''}>${escapeText(text)}</text>`;

const withBlock = (page: FinishedPage, added: FinishedPage): FinishedPage => {
  const end = page.svg.lastIndexOf('</svg>');
  const faces = [...new Set([...page.characters.keys(), ...added.characters.keys()])];
  return {
    svg: `${page.svg.slice(0, end)}${added.svg}${page.svg.slice(end)}`,
    characters: new Map(
      faces.map((face) => [
        face,
        new Set([...(page.characters.get(face) ?? []), ...(added.characters.get(face) ?? [])]),
      ]),
    ),
    missing: [...new Set([...page.missing, ...added.missing])],
  };
};

const emptyPage = (
  { enlarged, widthMm, heightMm }: PageLayout,
  index: number,
  language: Language,
): FinishedPage => ({
  svg: `<svg width="${roundUnits(widthMm * enlarged)}mm" height="${roundUnits(heightMm * enlarged)}mm" version="1.1" xmlns="http://www.w3.org/2000/svg" overflow="visible" id="closing-page-${index + 1}" lang="${LANGUAGES[language].tag}"></svg>`,
  characters: new Map(),
  missing: [],
});

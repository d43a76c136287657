import { type Block, baselineOf, emptySpace, heightOfLines, writeParagraph } from './block.ts';
import { letteringsOf, type Sheet } from './sheet.ts';
import { drawWords, shortenWords } from './words.ts';

/** The name of a chapter, and under it how it is read; `legend` is null where it needs no words. */
export const writeHead = (name: string, legend: string | null, sheet: Sheet): readonly Block[] => {
  const { section, text } = letteringsOf(sheet);
  return [
    ...writeParagraph(name, sheet.widthMm, { lettering: section, keepsWithNext: true }),
    ...(legend === null
      ? []
      : writeParagraph(legend, sheet.widthMm, { lettering: text, keepsWithNext: true })),
    { ...emptySpace(0.8 * sheet.emMm), keepsWithNext: true },
  ];
};

/** The name of a chapter on one line, over the sheets that it goes on over. */
export const writeTitle = (name: string, sheet: Sheet): Block => {
  const { section } = letteringsOf(sheet);
  return {
    heightMm: heightOfLines(1, section),
    draw: (x, y) =>
      drawWords(shortenWords(name, sheet.widthMm, section), x, y + baselineOf(0, section), section),
  };
};

/** A heading within a chapter. */
export const writeHeading = (words: string, sheet: Sheet): readonly Block[] => {
  const { heading } = letteringsOf(sheet);
  return [
    { ...emptySpace(1.1 * sheet.emMm), keepsWithNext: true },
    ...writeParagraph(words, sheet.widthMm, { lettering: heading, keepsWithNext: true }),
    { ...emptySpace(0.2 * sheet.emMm), keepsWithNext: true },
  ];
};

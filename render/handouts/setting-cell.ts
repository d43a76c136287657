import type { Setting } from '../../engine/index.ts';
import { escapeText } from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import { LETTER_SIZE_VU } from '../draw/name-row.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Cell, drawingCell, stackCells, wordsCell } from '../sheets/cells.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { speakIn } from '../spoken/spoken-language.ts';
import { wordsOf } from '../words/words.ts';

/** Sizes in ems for each vu of a drawing. */
const DIAGRAM_EM = 0.28;
const NAMES_EM = 0.19;

/** How the names stand under a small diagram: in two rows (the right foot over the left) they are half as wide, and so larger. */
const NAMED_BELOW = {
  'one-row': { look: 'letters-one-row', diagramEm: 0.36, namesEm: 0.145 },
  'two-rows': { look: 'letters-two-rows', diagramEm: 0.3, namesEm: 0.3 },
} as const;

export const diagramCell = (setting: Setting, naming: NoteNaming, { emMm }: Sheet): Cell =>
  drawingCell(drawSetting({ setting, ringed: [], naming }, 'diagram'), DIAGRAM_EM * emMm);

export const namesCell = (setting: Setting, naming: NoteNaming, { emMm }: Sheet): Cell =>
  drawingCell(drawSetting({ setting, ringed: [], naming }, 'letters-one-row'), NAMES_EM * emMm);

/** A setting with a heading over it: its diagram, and its names under that. */
export const titledSetting = (
  title: string,
  setting: Setting,
  naming: NoteNaming,
  sheet: Sheet,
  names: keyof typeof NAMED_BELOW = 'one-row',
): Cell => {
  const toDraw = { setting, ringed: [], naming };
  const { look, diagramEm, namesEm } = NAMED_BELOW[names];
  const { strong } = letteringsOf(sheet);
  // The title is looked for first: it is no smaller than the names under it.
  const lettering = { ...strong, sizeMm: Math.max(strong.sizeMm, LETTER_SIZE_VU * namesEm * sheet.emMm) };
  const cell = stackCells([
    wordsCell(title, lettering),
    drawingCell(drawSetting(toDraw, 'diagram'), diagramEm * sheet.emMm),
    drawingCell(drawSetting(toDraw, look), namesEm * sheet.emMm),
  ]);
  const said = `<title>${escapeText(wordsOf(sheet).labelled(title, speakIn(sheet.language).names.setting(setting)))}</title>`;
  return { ...cell, draw: (x, y) => `<g class="handout-setting" role="img">${said}${cell.draw(x, y)}</g>` };
};

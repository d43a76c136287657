import type { Setting } from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import { escapeText } from '../edit.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Cell, drawingCell, stackCells, wordsCell } from '../sheets/cells.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { speakIn } from '../spoken/spoken-language.ts';
import { wordsOf } from '../words/words.ts';

/** Sizes in ems for each vu of a drawing. */
const DIAGRAM_EM = 0.28;
const SMALL_DIAGRAM_EM = 0.36;
const NAMES_EM = 0.19;
const SMALL_NAMES_EM = 0.145;

export const diagramCell = (setting: Setting, naming: NoteNaming, { emMm }: Sheet): Cell =>
  drawingCell(drawSetting({ setting, ringed: [], naming }, 'diagram'), DIAGRAM_EM * emMm);

export const namesCell = (setting: Setting, naming: NoteNaming, { emMm }: Sheet): Cell =>
  drawingCell(drawSetting({ setting, ringed: [], naming }, 'letters-one-row'), NAMES_EM * emMm);

/** A setting with a heading over it: its diagram, and its names under that. */
export const titledSetting = (title: string, setting: Setting, naming: NoteNaming, sheet: Sheet): Cell => {
  const toDraw = { setting, ringed: [], naming };
  const cell = stackCells([
    wordsCell(title, letteringsOf(sheet).strong),
    drawingCell(drawSetting(toDraw, 'diagram'), SMALL_DIAGRAM_EM * sheet.emMm),
    drawingCell(drawSetting(toDraw, 'letters-one-row'), SMALL_NAMES_EM * sheet.emMm),
  ]);
  const said = `<title>${escapeText(wordsOf(sheet).labelled(title, speakIn(sheet.language).names.setting(setting)))}</title>`;
  return { ...cell, draw: (x, y) => `<g class="handout-setting" role="img">${said}${cell.draw(x, y)}</g>` };
};

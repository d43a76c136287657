import type { Setting } from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Cell, drawingCell } from './cells.ts';

/** A setting as a large diagram, and the names of the seven pedals to stand under it, each as wide as is said. */
export const drawSettingWide = (setting: Setting, naming: NoteNaming, widthMm: number): readonly Cell[] =>
  (['diagram', 'letters-one-row'] as const).map((look) => {
    const drawing = drawSetting({ setting, ringed: [], naming }, look);
    return drawingCell(drawing, widthMm / drawing.box.widthVu);
  });

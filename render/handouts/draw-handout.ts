import { ok, type Result } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import { type BoundSheets, bindSheets } from '../sheets/bind-sheets.ts';
import { wallSheetOn } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';
import { writeDoubledStrings } from './doubled-strings.ts';
import { fillWall } from './fill-wall.ts';
import { writeGlissandi } from './glissandi.ts';
import type { WriteHandout } from './handout.ts';
import type { HandoutName } from './handout-words.ts';
import { writeKeys } from './keys.ts';
import { writePedals } from './pedals.ts';

const WRITERS: Readonly<Record<HandoutName, WriteHandout>> = {
  keys: writeKeys,
  glissandi: writeGlissandi,
  'doubled-strings': writeDoubledStrings,
  pedals: writePedals,
};

/**
 * Draws a wall chart: nothing in it is written by hand but its words.
 *
 * @param choice its paper, language and note names; the other options have no say
 * @returns the pages and the PDF, or `unsupported` for a paper that cannot be drawn on
 */
export const drawHandout = async (
  name: HandoutName,
  choice: Pick<EngravingChoice, 'paper' | 'naming' | 'language'> = {},
): Promise<Result<BoundSheets>> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const { naming, paper, language } = engraving.value;
  const sheet = wallSheetOn(paperSize(paper), language);
  const title = wordsOf(sheet).handouts.titles[name];
  const drawings = WRITERS[name](naming).flatMap((table) => fillWall(table, sheet));
  return ok(await bindSheets(drawings, sheet, title));
};

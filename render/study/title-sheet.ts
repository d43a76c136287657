import { group } from 'd3-array';
import {
  capitalize,
  FEET,
  type Foot,
  nameOfPosition,
  type Plan,
  type Score,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import type { Drawing } from '../draw/drawing.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { writeHeading } from '../sheets/headings.ts';
import { placeDrawing } from '../sheets/ink.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';
import { tellCause } from './tell-cause.ts';

/** How wide the diagram of the opening setting is, and its names under it, as a share of the sheet. */
const DIAGRAM_SHARE = 0.5;
const MOST_BUSY_BARS = 6;

/** The title page: the piece, how to set and tune the harp, and how hard it is. */
export const writeTitleSheet = (
  score: Score,
  plan: Plan,
  { naming }: Pick<EngravingOptions, 'naming'>,
  sheet: Sheet,
): readonly Block[] => {
  const write = writerOn(sheet);
  const { study: words, difficulty: told } = wordsOf(sheet);
  const { difficulty } = plan.summary;
  return [
    ...writeNames(score, sheet),
    ...write.heading(words.opening),
    ...drawOpening(plan.initial, naming, sheet),
    ...SIDES.flatMap((foot) => write.text(tellFoot(plan.initial, foot, naming, sheet))),
    ...write.heading(words.tune),
    ...tellTuning(plan, naming, sheet).flatMap(write.text),
    ...write.heading(words.difficulty(told.grades[difficulty.grade])),
    ...write.text(`${capitalize(told.verdict(difficulty.failing, difficulty.measures, 'pedal'))}.`),
    ...difficulty.causes.map((cause) => tellCause(cause, sheet)).flatMap(write.item),
    ...write.aside(words.ownScale),
    ...write.heading(words.moves),
    ...write.text(tellMoveCount(plan, sheet)),
    ...(plan.moves.length === 0 ? [] : write.heading(words.busiest)),
    ...(plan.moves.length === 0 ? [] : tellBusiestBars(score, plan, naming, sheet).flatMap(write.item)),
  ];
};

const writerOn = (sheet: Sheet) => {
  const { text, aside } = letteringsOf(sheet);
  const { widthMm, emMm } = sheet;
  return {
    heading: (words: string) => writeHeading(words, sheet),
    text: (words: string) => writeParagraph(words, widthMm, { lettering: text }),
    aside: (words: string) => writeParagraph(words, widthMm, { lettering: aside }),
    item: (words: string) =>
      writeParagraph(words, widthMm, { lettering: text, indentMm: 1.2 * emMm, mark: '•' }),
  };
};

const writeNames = (score: Score, sheet: Sheet): readonly Block[] => {
  const { title, heading, text } = letteringsOf(sheet);
  const { title: name, subtitle, composer, arranger } = score.titles;
  const lines = [
    [name || score.harp.name, title],
    [subtitle, heading],
    [composer, text],
    [arranger, text],
    [`${score.harp.name}, ${wordsOf(sheet).study.edition}`.replace(/^, /, ''), text],
  ] as const;
  return lines.flatMap(([words, lettering]) => writeParagraph(words, sheet.widthMm, { lettering }));
};

/** The opening setting as a large diagram, and under it the names of the seven pedals. */
const drawOpening = (setting: Setting, naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const widthMm = DIAGRAM_SHARE * sheet.widthMm;
  const toDraw = { setting, ringed: [], naming };
  return [
    drawnBlock(drawSetting(toDraw, 'diagram'), widthMm),
    drawnBlock(drawSetting(toDraw, 'letters-one-row'), widthMm),
    emptySpace(0.5 * sheet.emMm),
  ];
};

const drawnBlock = (drawing: Drawing, widthMm: number): Block => {
  const mmPerVu = widthMm / drawing.box.widthVu;
  return {
    heightMm: drawing.box.heightVu * mmPerVu,
    draw: (x, y) => placeDrawing(drawing, x, y, mmPerVu),
  };
};

const tellFoot = (setting: Setting, foot: Foot, naming: NoteNaming, sheet: Sheet): string => {
  const { notes, footHeads } = wordsOf(sheet);
  const pedals = FEET[foot].map(
    (letter) => `${nameInWords(letter, 0, naming)} ${notes.positions[nameOfPosition(setting[letter])]}`,
  );
  return `${footHeads[foot]}: ${pedals.join(', ')}.`;
};

const tellTuning = ({ tunings }: Plan, naming: NoteNaming, sheet: Sheet): readonly string[] => {
  const words = wordsOf(sheet).study;
  return tunings.length === 0
    ? [words.nothingToTune]
    : [
        ...tunings.map(({ string: { letter, octave }, alter }) =>
          words.tuneString(
            `${nameInWords(letter, 0, naming)}${octave}`,
            `${nameChange(letter, alter, naming)}${octave}`,
          ),
        ),
        words.tuneCaution,
      ];
};

const tellMoveCount = ({ moves, summary }: Plan, sheet: Sheet): string => {
  const words = wordsOf(sheet).study;
  return moves.length === 0
    ? words.noMoves
    : words.moveCount(moves.length, summary.difficulty.measures.changesPerMinute);
};

const tellBusiestBars = (score: Score, plan: Plan, naming: NoteNaming, sheet: Sheet): readonly string[] => {
  const words = wordsOf(sheet).study;
  const busy = [...group(plan.moves, ({ bar }) => bar)]
    .filter(([, moves]) => moves.length > 1)
    .sort(([barA, a], [barB, b]) => b.length - a.length || barA - barB)
    .slice(0, MOST_BUSY_BARS);
  return busy.length === 0
    ? [words.noBusyBars]
    : busy.map(([bar, moves]) =>
        words.busyBar(
          printedBarNumber(score.bars[bar]!.number),
          moves.length,
          moves.map(({ letter, to }) => nameChange(letter, to, naming)).join(' '),
        ),
      );
};

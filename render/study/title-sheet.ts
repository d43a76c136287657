import { group } from 'd3-array';
import {
  capitalize,
  FEET,
  type Foot,
  GRADE_WORDS,
  type HarpPlan,
  nameOfPosition,
  type Score,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import type { Drawing } from '../draw/drawing.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { tellTuning } from '../facts/tell-tuning.ts';
import { TUNING_WORDS } from '../facts/tuning-words.ts';
import { leverStart } from '../levers/lever-markings.ts';
import { describeLeverStart } from '../levers/lever-words.ts';
import { drawStrings } from '../levers/strings-block.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { writeHeading } from '../sheets/headings.ts';
import { placeDrawing } from '../sheets/ink.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { nameLeverChange } from './levers/hand-line.ts';
import { LEVER_WORDS } from './levers/lever-words.ts';
import { FOOT_HEADS, STUDY_WORDS as WORDS } from './words.ts';

/** How wide the diagram of the opening setting is, and its names under it, as a share of the sheet. */
const DIAGRAM_SHARE = 0.5;
const MOST_BUSY_BARS = 6;

/** The title page: the piece, how to set and tune the harp, and how hard it is. */
export const writeTitleSheet = (
  score: Score,
  harp: HarpPlan,
  { naming }: Pick<EngravingOptions, 'naming'>,
  sheet: Sheet,
): readonly Block[] => {
  const write = writerOn(sheet);
  const { summary, moves } = harp.plan;
  const { grade, verdict, reasons } = summary.difficulty;
  return [
    ...writeNames(score, sheet),
    ...writeOpening(harp, naming, sheet),
    ...write.heading(WORDS.tune),
    ...tellToTune(harp, naming).flatMap(write.text),
    ...write.heading(WORDS.difficulty(GRADE_WORDS[grade])),
    ...write.text(`${capitalize(verdict)}.`),
    ...reasons.flatMap(write.item),
    ...write.aside(WORDS.ownScale),
    ...write.heading(harp.kind === 'pedal' ? WORDS.moves : LEVER_WORDS.changes),
    ...write.text(tellMoveCount(harp)),
    ...(moves.length === 0 ? [] : write.heading(WORDS.busiest)),
    ...(moves.length === 0 ? [] : tellBusiestBars(score, harp, naming).flatMap(write.item)),
  ];
};

/** How the harp stands before the first note, drawn and in words. */
const writeOpening = (harp: HarpPlan, naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const write = writerOn(sheet);
  if (harp.kind === 'pedal') {
    const { initial } = harp.plan;
    return [
      ...write.heading(WORDS.opening),
      ...drawOpening(initial, naming, sheet),
      ...SIDES.flatMap((foot) => write.text(tellFoot(initial, foot, naming))),
    ];
  }
  return [
    ...write.heading(LEVER_WORDS.strings),
    drawStrings(harp.plan, harp.profile, naming, sheet),
    ...describeLeverStart(leverStart(harp)).flatMap((sentence) => write.text(`${sentence}.`)),
    ...write.aside(LEVER_WORDS.stringsLegend),
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
    [`${score.harp.name}, ${WORDS.edition}`.replace(/^, /, ''), text],
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

const tellFoot = (setting: Setting, foot: Foot, naming: NoteNaming): string => {
  const pedals = FEET[foot].map(
    (letter) => `${nameInWords(letter, 0, naming)} ${nameOfPosition(setting[letter])}`,
  );
  return `${FOOT_HEADS[foot]}: ${pedals.join(', ')}.`;
};

const tellToTune = (harp: HarpPlan, naming: NoteNaming): readonly string[] => {
  const { sentences, raises } = tellTuning(harp, naming);
  if (sentences.length === 0) return [TUNING_WORDS.nothing];
  return [...sentences, ...(raises ? [TUNING_WORDS.caution] : [])];
};

const tellMoveCount = ({ kind, plan: { moves, summary } }: HarpPlan): string => {
  const { changesPerMinute } = summary.difficulty.measures;
  if (kind === 'pedal')
    return moves.length === 0 ? WORDS.noMoves : WORDS.moveCount(moves.length, changesPerMinute);
  return moves.length === 0 ? LEVER_WORDS.noChanges : LEVER_WORDS.changeCount(moves.length, changesPerMinute);
};

/** The bar of each move, and what it is called. */
const nameMoves = (
  harp: HarpPlan,
  naming: NoteNaming,
): readonly { readonly bar: number; readonly name: string }[] =>
  harp.kind === 'pedal'
    ? harp.plan.moves.map(({ bar, letter, to }) => ({ bar, name: nameChange(letter, to, naming) }))
    : harp.plan.moves.map((move) => ({ bar: move.bar, name: nameLeverChange(move, naming) }));

const tellBusiestBars = (score: Score, harp: HarpPlan, naming: NoteNaming): readonly string[] => {
  const words = harp.kind === 'pedal' ? WORDS : LEVER_WORDS;
  const busy = [...group(nameMoves(harp, naming), ({ bar }) => bar)]
    .filter(([, moves]) => moves.length > 1)
    .sort(([barA, a], [barB, b]) => b.length - a.length || barA - barB)
    .slice(0, MOST_BUSY_BARS);
  return busy.length === 0
    ? [words.noBusyBars]
    : busy.map(([bar, moves]) =>
        words.busyBar(
          printedBarNumber(score.bars[bar]!.number),
          moves.length,
          moves.map(({ name }) => name).join(' '),
        ),
      );
};

import { group } from 'd3-array';
import {
  FEET,
  type Foot,
  GRADE_WORDS,
  nameOfPosition,
  type Plan,
  type Score,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import type { Drawing } from '../draw/drawing.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { tellTuning } from '../facts/tell-tuning.ts';
import { TUNING_WORDS } from '../facts/tuning-words.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { writeHeading } from '../sheets/headings.ts';
import { placeDrawing } from '../sheets/ink.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { FOOT_HEADS, STUDY_WORDS as WORDS } from './words.ts';

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
  return [
    ...writeNames(score, sheet),
    ...write.heading(WORDS.opening),
    ...drawOpening(plan.initial, naming, sheet),
    ...SIDES.flatMap((foot) => write.text(tellFoot(plan.initial, foot, naming))),
    ...write.heading(WORDS.tune),
    ...tellToTune(plan, naming).flatMap(write.text),
    ...write.heading(WORDS.difficulty(GRADE_WORDS[plan.summary.difficulty.grade])),
    ...[`${plan.summary.difficulty.verdict}.`.replace(/^./u, (first) => first.toUpperCase())].flatMap(
      write.text,
    ),
    ...plan.summary.difficulty.reasons.flatMap(write.item),
    ...write.aside(WORDS.ownScale),
    ...write.heading(WORDS.moves),
    ...write.text(tellMoveCount(plan)),
    ...(plan.moves.length === 0 ? [] : write.heading(WORDS.busiest)),
    ...(plan.moves.length === 0 ? [] : tellBusiestBars(score, plan, naming).flatMap(write.item)),
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

const tellToTune = (plan: Plan, naming: NoteNaming): readonly string[] => {
  const { sentences, raises } = tellTuning({ kind: 'pedal', plan }, naming);
  if (sentences.length === 0) return [TUNING_WORDS.nothing];
  return [...sentences, ...(raises ? [TUNING_WORDS.caution] : [])];
};

const tellMoveCount = ({ moves, summary }: Plan): string =>
  moves.length === 0
    ? WORDS.noMoves
    : WORDS.moveCount(moves.length, summary.difficulty.measures.changesPerMinute);

const tellBusiestBars = (score: Score, plan: Plan, naming: NoteNaming): readonly string[] => {
  const busy = [...group(plan.moves, ({ bar }) => bar)]
    .filter(([, moves]) => moves.length > 1)
    .sort(([barA, a], [barB, b]) => b.length - a.length || barA - barB)
    .slice(0, MOST_BUSY_BARS);
  return busy.length === 0
    ? [WORDS.noBusyBars]
    : busy.map(([bar, moves]) =>
        WORDS.busyBar(
          printedBarNumber(score.bars[bar]!.number),
          moves.length,
          moves.map(({ letter, to }) => nameChange(letter, to, naming)).join(' '),
        ),
      );
};

import { group } from 'd3-array';
import {
  capitalize,
  FEET,
  type Foot,
  type HarpPlan,
  isInPause,
  nameBarIn,
  nameOfPosition,
  type Score,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findStand, findStandAt } from '../facts/harp-stand.ts';
import { hasChordSymbols } from '../facts/has-chord-symbols.ts';
import { listMovements } from '../facts/movements.ts';
import { tellGrade } from '../facts/tell-grade.ts';
import { tellLeversUp, tellStart } from '../facts/tell-stands.ts';
import { tellFullTempo } from '../facts/tell-tempo.ts';
import { tellToTune } from '../facts/tell-tuning.ts';
import { titledSetting } from '../handouts/setting-cell.ts';
import { drawStrings } from '../levers/strings-block.ts';
import { barsWithNotes } from '../markings/bars-with-notes.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { flowCells } from '../sheets/cells.ts';
import { writeHeading } from '../sheets/headings.ts';
import { nameChange, nameInWords, withOctaves } from '../sheets/note-words.ts';
import { drawSettingWide } from '../sheets/setting-wide.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';
import { nameLeverChange } from './lines/hand-line.ts';
import { tellCause } from './tell-cause.ts';

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
  const { failing, measures, causes } = summary.difficulty;
  const words = wordsOf(sheet);
  const { study, difficulty } = words;
  return [
    ...writeNames(score, sheet),
    ...writeOpening(score, harp, naming, sheet),
    ...writeLaterOpenings(score, harp, naming, sheet),
    ...write.heading(study.tune),
    ...tellToTune(harp, naming, words).flatMap(write.text),
    ...write.heading(study.difficulty(tellGrade(summary.difficulty, words))),
    ...write.text(
      [
        `${capitalize(difficulty.verdict(failing, measures, harp.kind))}.`,
        ...tellFullTempo(score, words),
      ].join(' '),
    ),
    // What keeps it from being played is said by the verdict.
    ...causes
      .filter(({ kind }) => kind !== 'unplayable')
      .map((cause) => tellCause(cause, harp.kind, sheet))
      .flatMap(write.item),
    ...write.aside(study.ownScale),
    ...write.heading(harp.kind === 'pedal' ? study.moves : words.levers.changes),
    ...write.text(tellMoveCount(harp, words)),
    ...(hasChordSymbols(score) ? write.text(study.chordSymbols) : []),
    ...(moves.length === 0 ? [] : write.heading(study.busiest)),
    ...(moves.length === 0 ? [] : tellBusiestBars(score, harp, naming, words).flatMap(write.item)),
  ];
};

/** How the harp stands before the first note, drawn and in words. */
const writeOpening = (score: Score, harp: HarpPlan, naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const write = writerOn(sheet);
  const words = wordsOf(sheet);
  const { study, levers } = words;
  if (harp.kind === 'pedal') {
    const { initial } = harp.plan;
    return [
      ...write.heading(study.opening),
      ...nameFirst(score, sheet),
      ...drawOpening(initial, naming, sheet),
      ...SIDES.flatMap((foot) => write.text(tellFoot(initial, foot, naming, words))),
    ];
  }
  return [
    ...write.heading(levers.strings),
    ...nameFirst(score, sheet),
    drawStrings(harp.plan, harp.profile, naming, sheet),
    ...tellStart(findStand(score, harp), naming, words).flatMap(write.text),
    ...write.aside(withOctaves(levers.stringsLegend, naming, words)),
  ];
};

/** The name of the first movement, where there are several. */
const nameFirst = (score: Score, sheet: Sheet): readonly Block[] =>
  listMovements(score, wordsOf(sheet))
    .slice(0, 1)
    .flatMap(({ name }) => writeParagraph(name, sheet.widthMm, { lettering: letteringsOf(sheet).strong }));

/** The same of each later movement that is set for before it, smaller. */
const writeLaterOpenings = (
  score: Score,
  harp: HarpPlan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Block[] => {
  const words = wordsOf(sheet);
  const { strong } = letteringsOf(sheet);
  const write = writerOn(sheet);
  const later = listMovements(score, words)
    .filter(({ bar, isSetFor }) => isSetFor && bar > 0)
    .map(({ bar, name }) => ({ name, stand: findStandAt(score, harp, bar) }));
  const cells = later.flatMap(({ name, stand }) =>
    stand.kind === 'pedal' ? [titledSetting(name, stand.begins, naming, sheet)] : [],
  );
  return [
    ...(cells.length === 0 ? [] : [emptySpace(0.5 * sheet.emMm)]),
    ...flowCells(cells, sheet),
    ...later.flatMap(({ name, stand }) =>
      stand.kind === 'pedal'
        ? []
        : [
            ...writeParagraph(name, sheet.widthMm, { lettering: strong }),
            ...write.text(tellLeversUp(stand, naming, words)),
          ],
    ),
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
    [
      capitalize([score.harp.name, wordsOf(sheet).study.edition].filter((each) => each !== '').join(', ')),
      text,
    ],
  ] as const;
  return lines.flatMap(([words, lettering]) => writeParagraph(words, sheet.widthMm, { lettering }));
};

/** The opening setting as a large diagram, and under it the names of the seven pedals. */
const drawOpening = (setting: Setting, naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const widthMm = DIAGRAM_SHARE * sheet.widthMm;
  return [...drawSettingWide(setting, naming, widthMm), emptySpace(0.5 * sheet.emMm)];
};

const tellFoot = (
  setting: Setting,
  foot: Foot,
  naming: NoteNaming,
  { notes, footHeads, labelled }: Words,
): string => {
  const pedals = FEET[foot].map(
    (letter) => `${nameInWords(letter, 0, naming)} ${notes.positions[nameOfPosition(setting[letter])]}`,
  );
  return `${labelled(footHeads[foot], pedals.join(', '))}.`;
};

const tellMoveCount = ({ kind, plan: { moves, summary } }: HarpPlan, { study, levers }: Words): string => {
  const { changesPerMinute } = summary.difficulty.measures;
  if (kind === 'pedal')
    return moves.length === 0 ? study.noMoves : study.moveCount(moves.length, changesPerMinute);
  return moves.length === 0 ? levers.noChanges : levers.changeCount(moves.length, changesPerMinute);
};

/** The bar of each move that is made while the part is played, and what it is called. */
const nameMoves = (
  score: Score,
  harp: HarpPlan,
  naming: NoteNaming,
): readonly { readonly bar: number; readonly name: string }[] =>
  harp.kind === 'pedal'
    ? harp.plan.moves
        .filter((move) => !isInPause(score, move))
        .map(({ bar, letter, to }) => ({ bar, name: nameChange(letter, to, naming) }))
    : harp.plan.moves
        .filter((move) => !isInPause(score, move))
        .map((move) => ({ bar: move.bar, name: nameLeverChange(move, naming) }));

const tellBusiestBars = (score: Score, harp: HarpPlan, naming: NoteNaming, all: Words): readonly string[] => {
  const words = harp.kind === 'pedal' ? all.study : all.levers;
  const nameBar = nameBarIn(score);
  const played = barsWithNotes(score);
  // In a bar of rest there is time for any number of moves.
  const busy = [...group(nameMoves(score, harp, naming), ({ bar }) => bar)]
    .filter(([bar, moves]) => played.has(bar) && moves.length > 1)
    .sort(([barA, a], [barB, b]) => b.length - a.length || barA - barB);
  if (busy.length === 0) return [words.noBusyBars];
  const told = busy.slice(0, MOST_BUSY_BARS);
  const asBusy = busy.slice(told.length).filter(([, moves]) => moves.length === told.at(-1)![1].length);
  return [
    ...told.map(([bar, moves]) =>
      words.busyBar(nameBar(bar), moves.length, moves.map(({ name }) => name).join(', ')),
    ),
    ...(asBusy.length === 0 ? [] : [all.study.asBusy(asBusy.map(([bar]) => nameBar(bar)))]),
  ];
};

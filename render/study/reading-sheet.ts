import { group } from 'd3-array';
import { type HarpPlan, namedMovements, type OneTime, type Score, type Setting } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { writeFeetAndDiagram } from '../handouts/pedals.ts';
import { drawLeverTableAlone } from '../levers/draw-levers.ts';
import { type LeverMarking, leverStart } from '../levers/lever-markings.ts';
import { listCounts } from '../markings/beat-counts.ts';
import { markingsFor, type PrintedMarking } from '../markings/printed-markings.ts';
import { nameStrings } from '../part/signs/string-names.ts';
import { type Block, writeParagraph } from '../sheets/block.ts';
import { drawingCell } from '../sheets/cells.ts';
import { writeHeading } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';

/** How large the table of the levers is drawn, as a share of the sheet. */
const TABLE_SHARE = 0.35;

/** What the picture shows. */
type Pictured =
  | {
      readonly kind: 'pedal';
      /** How the pedals stand as the piece begins; null where it is for several pieces. */
      readonly opening: Setting | null;
    }
  | ({ readonly kind: 'lever' } & Pick<LeverMarking & { kind: 'levers' }, 'up' | 'levers'>);

/** What the pages of a piece may have. */
const SIGNS = [
  'changes',
  'two-feet',
  'rings',
  'wedges',
  'first-time',
  'second-time',
  'later-times',
  'first-time-setting',
  'second-time-return',
  'later-times-return',
  'strings',
  'counts',
  'movements',
  'numbers',
] as const;

type Sign = (typeof SIGNS)[number];

/** What has to be explained of the markings of a piece. */
export interface Reading {
  readonly pictured: Pictured;
  /** What the pages have; a list, since pieces of a class set are kept as JSON. */
  readonly shown: readonly Sign[];
  readonly signs: Pick<
    EngravingOptions,
    'naming' | 'language' | 'marksAt' | 'density' | 'leverLook' | 'leverHands' | 'stringColours'
  >;
}

const signsOf = (score: Score, harp: HarpPlan, engraving: EngravingOptions): readonly Sign[] => {
  const printed = markingsFor(score, harp, engraving);
  const times = printed.flatMap((each) =>
    each.kind === 'lever-change' ? each.atOneTime.map(({ time }) => timeSign(time, each.timesPlayed)) : [],
  );
  const returns = printed.flatMap((each) =>
    'onReturn' in each && each.onReturn.length > 0 ? [each.timesPlayed <= 2] : [],
  );
  const has: Readonly<Record<Sign, boolean>> = {
    changes: printed.some(({ kind }) => CHANGES.includes(kind)),
    'two-feet': printed.some(
      (each) => each.kind === 'change' && each.left.length > 0 && each.right.length > 0,
    ),
    rings: engraving.circleChanged && harp.plan.moves.length > 0,
    wedges: printed.some(isWithNote),
    'first-time': times.includes('first-time'),
    'second-time': times.includes('second-time'),
    'later-times': times.includes('later-times'),
    'first-time-setting': printed.some((each) => 'firstTimeOnly' in each && each.firstTimeOnly),
    'second-time-return': returns.includes(true),
    'later-times-return': returns.includes(false),
    strings: nameStrings(score, harp.plan.respellings, engraving).size > 0,
    counts: listCounts(score, harp, engraving.beatCounts).length > 0,
    movements: namedMovements(score).length > 0,
    numbers: engraving.numberUnplayable && harp.plan.findings.some(({ severity }) => severity === 'stop'),
  };
  return SIGNS.filter((sign) => has[sign]);
};

/** The words beside a change that is made at one time of playing alone (see `timeInWords`). */
const timeSign = (time: OneTime, timesPlayed: number): Sign =>
  time === 'first' ? 'first-time' : timesPlayed <= 2 ? 'second-time' : 'later-times';

const CHANGES: readonly PrintedMarking['kind'][] = ['change', 'lever-change', 'lever-notes'];

const isWithNote = (marking: PrintedMarking): boolean =>
  (marking.kind === 'change' || marking.kind === 'setting') && marking.withNote;

/** What a study edition has to explain; null where that is not wished. */
export const readingOf = (score: Score, harp: HarpPlan, engraving: EngravingOptions): Reading | null => {
  if (!engraving.legend) return null;
  const { naming, language, marksAt, density } = engraving;
  const { leverLook, leverHands, stringColours } = engraving;
  const { up, levers } = harp.kind === 'lever' ? leverStart(harp) : { up: [], levers: [] };
  return {
    pictured:
      harp.kind === 'pedal' ? { kind: 'pedal', opening: harp.plan.initial } : { kind: 'lever', up, levers },
    signs: {
      ...{ naming, language, marksAt, density },
      ...{ leverLook, leverHands, stringColours },
    },
    shown: signsOf(score, harp, engraving),
  };
};

/** What has to be explained to someone who plays several pieces: each harp once, and each way of printing. */
export const readingsOfSet = (readings: readonly (Reading | null)[], sheet: Sheet): readonly Reading[] => {
  const told = readings.filter((each) => each !== null);
  const alike = group(told, (reading) => {
    const { pictured } = reading;
    const harp = pictured.kind === 'pedal' ? pictured.kind : pictured.levers;
    return JSON.stringify([harp, tellSigns({ ...reading, shown: SIGNS }, sheet)]);
  });
  return [...alike.values()].map(([first, ...others]) => ({
    ...first!,
    shown: [...new Set([first!, ...others].flatMap(({ shown }) => shown))],
    pictured: first!.pictured.kind === 'pedal' ? { kind: 'pedal', opening: null } : first!.pictured,
  }));
};

/** How the markings are read: the pedals or the levers in a picture, and each sign that the pages have. */
export const writeReading = (read: Reading, sheet: Sheet): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const { pictured, signs } = read;
  const picture =
    pictured.kind === 'pedal'
      ? writeFeetAndDiagram(sheet, signs.naming, pictured.opening)
      : drawLevers(pictured, signs, sheet);
  const told = tellSigns(read, sheet);
  return [
    ...picture,
    ...(told.length === 0 ? [] : writeHeading(reading.onThePages, sheet)),
    ...told.flatMap((sign) =>
      writeParagraph(sign, sheet.widthMm, { lettering: text, indentMm: 1.2 * sheet.emMm, mark: '•' }),
    ),
  ];
};

const drawLevers = (
  pictured: Pictured & { readonly kind: 'lever' },
  signs: Reading['signs'],
  sheet: Sheet,
): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const table = drawLeverTableAlone(pictured, signs);
  return [
    drawingCell(table, (TABLE_SHARE * sheet.widthMm) / table.box.widthVu),
    ...writeParagraph(reading.leverTable, sheet.widthMm, { lettering: text }),
  ];
};

/** The signs that the pages have, each in a sentence. */
const tellSigns = ({ pictured, signs, shown }: Reading, sheet: Sheet): readonly string[] => {
  const { reading, legend, labelled, inWords } = wordsOf(sheet);
  const { marksAt, density, leverLook, leverHands, stringColours } = signs;
  const own =
    pictured.kind === 'pedal'
      ? [
          ...(density !== 'changes' ? [reading.setting] : []),
          ...(shown.includes('changes') ? [reading.change[marksAt]] : []),
          ...(shown.includes('two-feet') ? [reading.feet] : []),
          ...(shown.includes('rings') ? [reading.ring] : []),
          ...(shown.includes('wedges') ? [reading.wedge] : []),
        ]
      : shown.includes('changes')
        ? [reading.leverChange[leverLook], ...(leverHands ? [reading.leverHands] : [])]
        : [];
  const { first, second, later } = inWords.times;
  const [firstTime, onReturn] =
    pictured.kind === 'pedal'
      ? [legend.firstTime, legend.onReturn]
      : [legend.leverFirstTime, legend.leverOnReturn];
  const timed: readonly (readonly [sign: Sign, time: string, sentence: string])[] = [
    ['first-time', first, legend.leverAtOneTime],
    ['second-time', second, legend.leverAtOneTime],
    ['later-times', later, legend.leverAtOneTime],
    ['first-time-setting', first, firstTime],
    ['second-time-return', second, onReturn],
    ['later-times-return', later, onReturn],
  ];
  return [
    ...own,
    ...timed.filter(([sign]) => shown.includes(sign)).map(([, time, sentence]) => labelled(time, sentence)),
    ...(stringColours === 'none' ? [] : [reading.colours[stringColours]]),
    ...(shown.includes('strings') ? [reading.strings] : []),
    ...(shown.includes('counts') ? [reading.counts] : []),
    ...(shown.includes('movements') ? [reading.movements] : []),
    ...(shown.includes('numbers') ? [reading.numbers] : []),
  ];
};

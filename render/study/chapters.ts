import {
  GRADE_WORDS,
  type HarpPlan,
  type LeverHarpProfile,
  type LeverPlan,
  type Plan,
  type Score,
  tuningName,
} from '../../engine/index.ts';
import { tellTuning } from '../facts/tell-tuning.ts';
import { TUNING_WORDS } from '../facts/tuning-words.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable, type Table } from '../sheets/table.ts';
import { writeFindings } from './findings-sheet.ts';
import { drawMovesAlone, findHardSpots, type Music, writeHardSpot } from './hard-spots.ts';
import { tellChanges } from './levers/change-rows.ts';
import { drawHandLine } from './levers/hand-line.ts';
import { LEVER_WORDS } from './levers/lever-words.ts';
import { tellTunedStrings } from './levers/tuning-sheet.ts';
import { tellMoves } from './move-rows.ts';
import { drawPedalChart } from './pedal-chart.ts';
import { STUDY_WORDS as WORDS } from './words.ts';

/** A chapter beside the part: its name, and its sheets as drawings. */
export interface Chapter {
  readonly name: string;
  readonly sheets: readonly string[];
}

const writeChapter = (
  name: string,
  legend: string | null,
  blocks: readonly Block[],
  sheet: Sheet,
): Chapter => ({
  name,
  sheets: fillSheets({ blocks: [...writeHead(name, legend, sheet), ...blocks], repeated: null }, sheet),
});

/** A chapter of one table, its head on each sheet, and what stands under it. */
const writeTable = (
  name: string,
  legend: string | null,
  table: Table,
  sheet: Sheet,
  below: readonly Block[] = [],
): Chapter => {
  const { head, rows } = setTable(table, sheet);
  const blocks = [...writeHead(name, legend, sheet), head, ...rows, ...below];
  return { name, sheets: fillSheets({ blocks, repeated: head }, sheet) };
};

/** What is done before the first note: of a lever harp, its strings are tuned. */
export const writeChaptersBefore = (harp: HarpPlan, naming: NoteNaming, sheet: Sheet): readonly Chapter[] =>
  harp.kind === 'lever' ? [writeTuningSheet(harp, naming, sheet)] : [];

const writeTuningSheet = (
  harp: HarpPlan & { readonly plan: LeverPlan; readonly profile: LeverHarpProfile },
  naming: NoteNaming,
  sheet: Sheet,
): Chapter => {
  const { text } = letteringsOf(sheet);
  const { sentences, raises } = tellTuning(harp, naming);
  const told =
    sentences.length === 0
      ? [TUNING_WORDS.nothing]
      : [...sentences, ...(raises ? [TUNING_WORDS.caution] : [])];
  return writeTable(
    LEVER_WORDS.tuningSheet,
    LEVER_WORDS.tuningLegend(tuningName(harp.plan.tuning), harp.profile.name),
    { heads: LEVER_WORDS.tuningHeads, rows: tellTunedStrings(harp.plan, harp.profile, naming) },
    sheet,
    [
      emptySpace(sheet.emMm),
      ...told.flatMap((words) => writeParagraph(words, sheet.widthMm, { lettering: text })),
    ],
  );
};

/** What stands after the part: what moves, how hard it is, and what is to be known. */
export const writeChaptersAfter = (music: Music, naming: NoteNaming, sheet: Sheet): readonly Chapter[] => {
  const { score, harp } = music;
  return [
    ...(harp.kind === 'pedal'
      ? writePedalChapters(score, harp.plan, naming, sheet)
      : writeLeverChapters(score, harp.plan, naming, sheet)),
    ...writePassages(score, harp, sheet),
    writeHardSpots(music, naming, sheet),
    writeChapter(WORDS.findings, null, writeFindings(harp.plan.findings, sheet), sheet),
  ];
};

const tellLead = (seconds: number | null): string =>
  seconds === null ? WORDS.noLead : WORDS.seconds(seconds);

const writePedalChapters = (
  score: Score,
  plan: Plan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  const chart = writeChapter(
    WORDS.chart,
    WORDS.chartLegend,
    drawPedalChart(score, plan, naming, sheet),
    sheet,
  );
  if (plan.moves.length === 0) return [chart, writeChapter(WORDS.table, WORDS.noMoves, [], sheet)];
  const alone = drawMovesAlone({ score, harp: { kind: 'pedal', plan } }, naming, sheet);
  const rows = tellMoves(score, plan, naming).map(({ leadSeconds, ...row }) => [
    row.barNumber,
    row.beat,
    row.foot,
    row.pedal,
    row.from,
    row.to,
    tellLead(leadSeconds),
    row.why,
  ]);
  return [
    chart,
    writeChapter(WORDS.footwork, WORDS.footworkLegend, alone, sheet),
    writeTable(WORDS.table, WORDS.tableLegend, { heads: WORDS.tableHeads, rows }, sheet),
  ];
};

const writeLeverChapters = (
  score: Score,
  plan: LeverPlan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  if (plan.moves.length === 0) return [writeChapter(LEVER_WORDS.table, LEVER_WORDS.noChanges, [], sheet)];
  const rows = tellChanges(score, plan, naming).map(({ leadSeconds, ...row }) => [
    row.barNumber,
    row.beat,
    row.hand,
    row.lever,
    row.to,
    row.gives,
    tellLead(leadSeconds),
    row.why,
  ]);
  return [
    writeChapter(LEVER_WORDS.line, LEVER_WORDS.lineLegend, drawHandLine(score, plan, naming, sheet), sheet),
    writeTable(LEVER_WORDS.table, LEVER_WORDS.tableLegend, { heads: LEVER_WORDS.tableHeads, rows }, sheet),
  ];
};

const writePassages = (score: Score, { kind, plan }: HarpPlan, sheet: Sheet): readonly Chapter[] => {
  const { passages } = plan.summary.difficulty;
  if (passages.length === 0) return [];
  const numberOf = (bar: number): string => printedBarNumber(score.bars[bar]!.number);
  const rows = passages.map(({ from, until, grade, measures, reasons }) => [
    from === until ? numberOf(from) : `${numberOf(from)}–${numberOf(until)}`,
    GRADE_WORDS[grade],
    `${measures.changes}`,
    measures.changesPerMinute.toFixed(1),
    reasons.join(' '),
  ]);
  const heads = kind === 'pedal' ? WORDS.passageHeads : LEVER_WORDS.passageHeads;
  return [writeTable(WORDS.passages, WORDS.ownScale, { heads, rows }, sheet)];
};

/** Each spot on sheets of its own. */
const writeHardSpots = (music: Music, naming: NoteNaming, sheet: Sheet): Chapter => {
  const spots = findHardSpots(music.harp.plan);
  const legend = music.harp.kind === 'pedal' ? WORDS.spotsLegend : LEVER_WORDS.spotsLegend;
  if (spots.length === 0) return writeChapter(WORDS.spots, WORDS.noSpots, [], sheet);
  const head = writeHead(WORDS.spots, legend, sheet);
  const sheets = spots.flatMap((spot, i) => {
    const blocks = writeHardSpot(spot, i + 1, music, naming, sheet);
    return fillSheets({ blocks: i === 0 ? [...head, ...blocks] : blocks, repeated: null }, sheet);
  });
  return { name: WORDS.spots, sheets };
};

import {
  type HarpPlan,
  isInPause,
  isNoTime,
  type LeverHarpProfile,
  type LeverPlan,
  listStrings,
  nameSpanIn,
  type Plan,
  type Score,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { tellCounting } from '../facts/tell-counting.ts';
import { tellGrade } from '../facts/tell-grade.ts';
import { nameTuning, tellTuning } from '../facts/tell-tuning.ts';
import { leversUpForRepeat } from '../levers/needed-times.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { EngravedPages } from '../pages/engrave-pages.ts';
import { type Block, emptySpace, heightOf, writeParagraph } from '../sheets/block.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { nameInWords, withOctaves } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable, type Table } from '../sheets/table.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';
import { writeFindings, writeMadeWay } from './findings-sheet.ts';
import { drawHandLine } from './lines/hand-line.ts';
import { drawPedalChart } from './lines/pedal-chart.ts';
import { tellChanges } from './moves/change-rows.ts';
import { tellMoves } from './moves/move-rows.ts';
import { type Reading, readingOf, writeReading } from './reading-sheet.ts';
import { drawMovesAlone, findHardSpots, type Music, writeHardSpot } from './spots/hard-spots.ts';
import { tabulate } from './tabulate.ts';
import { tellCause } from './tell-cause.ts';
import { TUNING_COLUMNS, tellTunedStrings } from './tuning-rows.ts';

/** A chapter beside the part: its name, and what stands on its sheets. */
export interface Chapter {
  readonly name: string;
  readonly sections: readonly Section[];
}

/** The chapters of a pack in their order, which is that of its contents. */
export interface Chapters {
  /** Before the part. */
  readonly before: readonly Chapter[];
  readonly after: readonly Chapter[];
}

/** A part with its plan and its pages. */
export interface BoundPart extends Pick<Music, 'score' | 'harp'> {
  readonly engraved: Pick<EngravedPages, 'pages' | 'replacedMarkings'>;
}

/**
 * Every pack has its chapters in this order, whatever room that leaves on its sheets: who knows one pack finds the way
 * through another. Before the part stands only what is read and done before the first note.
 *
 * @param told the plan with each move where the part has its marking
 * @param use a class set tells once how the markings of all its pieces are read
 */
export const writeChapters = (
  { score, harp, engraved }: BoundPart,
  told: HarpPlan,
  engraving: EngravingOptions,
  sheet: Sheet,
  use: 'alone' | 'in-class-set',
): Chapters => ({
  before: writeChaptersBefore({ score, harp }, engraving, sheet, use),
  after: writeChaptersAfter({ score, harp: told, engraved }, engraving.naming, sheet),
});

const writeChapter = (
  name: string,
  legend: string | null,
  blocks: readonly Block[],
  sheet: Sheet,
): Chapter => ({
  name,
  sections: [{ blocks: [...writeHead(name, legend, sheet), ...blocks], repeated: null }],
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
  return { name, sections: [{ blocks, repeated: head }] };
};

/** What is read and done before the first note: of a lever harp, its strings are tuned; how markings are read. */
const writeChaptersBefore = (
  { score, harp }: Pick<Music, 'score' | 'harp'>,
  engraving: EngravingOptions,
  sheet: Sheet,
  use: 'alone' | 'in-class-set',
): readonly Chapter[] => {
  const reading = use === 'alone' ? readingOf(score, harp, engraving) : null;
  return [
    ...(harp.kind === 'lever' ? [writeTuningSheet(score, harp, engraving.naming, sheet)] : []),
    ...(reading === null ? [] : [writeReadingChapter(reading, sheet)]),
  ];
};

/** How markings are read. */
export const writeReadingChapter = (
  reading: Reading,
  sheet: Sheet,
  name: string = wordsOf(sheet).reading.title,
): Chapter => writeChapter(name, null, writeReading(reading, sheet), sheet);

const writeTuningSheet = (
  score: Score,
  harp: HarpPlan & { readonly plan: LeverPlan; readonly profile: LeverHarpProfile },
  naming: NoteNaming,
  sheet: Sheet,
): Chapter => {
  const { text } = letteringsOf(sheet);
  const words = wordsOf(sheet);
  const { levers, tuning } = words;
  const { sentences, raises } = tellTuning(harp, naming, words);
  const told = [
    ...(sentences.length === 0 ? [tuning.nothing] : [...sentences, ...(raises ? [tuning.caution] : [])]),
    ...leversUpForRepeat(score, harp.plan).map(({ letter, octave }) =>
      levers.upForRepeat(`${nameInWords(letter, 0, naming)}${octave}`),
    ),
  ];
  return writeTable(
    levers.tuningSheet,
    levers.tuningLegend(
      nameTuning(harp.plan.tuning, naming, words),
      levers.harp(listStrings(harp.profile).length),
    ),
    tabulate(TUNING_COLUMNS, levers.tuningHeads, tellTunedStrings(harp.plan, harp.profile, naming, words)),
    sheet,
    [
      emptySpace(sheet.emMm),
      ...told.flatMap((sentence) => writeParagraph(sentence, sheet.widthMm, { lettering: text })),
    ],
  );
};

/** What stands after the part: what moves, how hard it is, and what is to be known. */
const writeChaptersAfter = (
  { score, harp, engraved: { pages, replacedMarkings } }: BoundPart,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  return [
    ...(harp.kind === 'pedal'
      ? writePedalChapters(score, harp.plan, naming, sheet)
      : writeLeverChapters(score, harp.plan, naming, sheet)),
    ...writePassages(score, harp, sheet),
    ...listFindings(score, harp, replacedMarkings, naming, sheet),
    ...writeHardSpots({ score, harp, pages }, naming, sheet),
  ];
};

/**
 * What is to be known of the plan, and that markings of the file are not on the pages. Where there is nothing of either,
 * the title page says that the part is playable.
 */
const listFindings = (
  score: Score,
  { plan: { findings } }: HarpPlan,
  replacedMarkings: number,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  if (findings.length === 0 && replacedMarkings === 0) return [];
  const words = wordsOf(sheet);
  const legend = tellCounting(score, words).join(' ') || null;
  const blocks = [
    ...writeFindings(score, findings, naming, sheet),
    ...(replacedMarkings === 0 ? [] : writeMadeWay(replacedMarkings, sheet)),
  ];
  return [writeChapter(words.study.findings, legend, blocks, sheet)];
};

/** The columns of the tables, in their order. */
const MOVE_COLUMNS = ['bar', 'beat', 'foot', 'pedal', 'from', 'to', 'lead', 'why'] as const;
const CHANGE_COLUMNS = ['bar', 'beat', 'hand', 'lever', 'to', 'gives', 'lead', 'why'] as const;
const PASSAGE_COLUMNS = ['bars', 'grade', 'moves', 'perMinute', 'why'] as const;

/** Where no time can be told. */
const NO_LEAD = '–';

/** @param withNote whether it cannot be made before its note, as a wedge in the part has it */
const tellLead = (seconds: number | null, withNote: boolean, { study }: Words): string => {
  if (seconds === null) return NO_LEAD;
  if (!isNoTime(seconds, 1)) return study.seconds(seconds);
  return withNote ? study.withNote : study.hardlyAny;
};

/** Why some changes stand before the first count. */
const tellPauses = (
  score: Score,
  { moves }: Pick<Plan | LeverPlan, 'moves'>,
  { study }: Words,
): readonly string[] => (moves.some((move) => isInPause(score, move)) ? [study.pauseLegend] : []);

const writePedalChapters = (
  score: Score,
  plan: Plan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  const words = wordsOf(sheet);
  const { study } = words;
  // The title page says that nothing moves.
  if (plan.moves.length === 0) return [];
  const chart = writeChapter(
    study.chart,
    study.chartLegend,
    drawPedalChart(score, plan, naming, sheet),
    sheet,
  );
  const alone = drawMovesAlone({ score, harp: { kind: 'pedal', plan } }, naming, sheet);
  const rows = tellMoves(score, plan, naming, words).map(({ leadSeconds, withNote, barName, ...row }) => ({
    ...row,
    bar: barName,
    lead: tellLead(leadSeconds, withNote, words),
  }));
  return [
    chart,
    writeChapter(
      study.footwork,
      [study.footworkLegend, ...tellCounting(score, words), ...tellPauses(score, plan, words)].join(' '),
      alone,
      sheet,
    ),
    writeTable(
      study.table,
      withOctaves(study.tableLegend, naming, words),
      tabulate(MOVE_COLUMNS, study.tableHeads, rows),
      sheet,
    ),
  ];
};

const writeLeverChapters = (
  score: Score,
  plan: LeverPlan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Chapter[] => {
  const words = wordsOf(sheet);
  const { levers } = words;
  if (plan.moves.length === 0) return [];
  const rows = tellChanges(score, plan, naming, words).map(({ leadSeconds, barName, ...row }) => ({
    ...row,
    bar: barName,
    lead: tellLead(leadSeconds, false, words),
  }));
  return [
    writeChapter(
      levers.line,
      [levers.lineLegend, ...tellCounting(score, words), ...tellPauses(score, plan, words)].join(' '),
      drawHandLine(score, plan, naming, sheet),
      sheet,
    ),
    writeTable(
      levers.table,
      withOctaves(levers.tableLegend, naming, words),
      tabulate(CHANGE_COLUMNS, levers.tableHeads, rows),
      sheet,
    ),
  ];
};

const writePassages = (score: Score, harp: HarpPlan, sheet: Sheet): readonly Chapter[] => {
  const { kind, plan } = harp;
  const words = wordsOf(sheet);
  const { study, levers } = words;
  const { passages } = plan.summary.difficulty;
  // Where nothing moves and all is easy, each line would say what the first page says.
  if (passages.every(({ grade, measures }) => grade === 'easy' && measures.changes === 0)) return [];
  const nameSpan = nameSpanIn(score);
  const rows = passages.map((passage) => ({
    bars: nameSpan(passage.from, passage.until),
    grade: tellGrade(passage, words),
    moves: `${passage.measures.changes}`,
    perMinute: study.rate(passage.measures.changesPerMinute),
    why: passage.causes.map((cause) => tellCause(cause, kind, sheet)).join(' '),
  }));
  const named =
    kind === 'pedal' ? study.passageHeads : { ...study.passageHeads, moves: levers.passageChanges };
  const legend = findHardSpots(plan).length === 0 ? study.noSpots : null;
  return [writeTable(study.passages, legend, tabulate(PASSAGE_COLUMNS, named, rows), sheet)];
};

/** Each spot with its exercises. */
const writeHardSpots = (music: Music, naming: NoteNaming, sheet: Sheet): readonly Chapter[] => {
  const { study, levers } = wordsOf(sheet);
  const spots = findHardSpots(music.harp.plan);
  const legend = music.harp.kind === 'pedal' ? study.spotsLegend : levers.spotsLegend;
  if (spots.length === 0) {
    // The table of the passages says so.
    return [];
  }
  const head = writeHead(study.spots, legend, sheet);
  const sections = spots.map((spot, i): Section => {
    const above = i === 0 ? head : [];
    const roomMm = sheet.heightMm - heightOf(above);
    const blocks = writeHardSpot(spot, i + 1, music, naming, sheet, roomMm);
    return { blocks: [...above, ...blocks], repeated: null, staysWhole: true, endsInNotes: true };
  });
  return [{ name: study.spots, sections }];
};

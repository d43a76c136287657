import { capitalize, type HarpPlan, joinTitles, type Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { nameSeconds } from '../facts/name-seconds.ts';
import { collectFacts } from '../facts/part-facts.ts';
import { tellGrade } from '../facts/tell-grade.ts';
import { tellTempo } from '../facts/tell-tempo.ts';
import { nameTuning, tellToTune } from '../facts/tell-tuning.ts';
import { drawStrings } from '../levers/strings-block.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { PaperSize } from '../printed/pdf.ts';
import { type Block, baselineOf, drawBlocks, emptySpace, writeParagraph } from '../sheets/block.ts';
import { frameRectangle } from '../sheets/ink.ts';
import { drawSettingWide } from '../sheets/setting-wide.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { overlaySheet } from '../sheets/sheet-page.ts';
import { drawWords, widthOfWords } from '../sheets/words.ts';
import type { FinishedPage } from '../text/finish-page.ts';
import type { Language } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';

/** The card's own size: nothing is printed on it that a screen does not show. */
const WIDTH_MM = 160;
const LEAST_HEIGHT_MM = 90;
const MARGIN_MM = 9;
const EM_MM = 3.6;

/** A summary card, and how large it is. */
export interface SummaryCard {
  readonly page: FinishedPage;
  readonly size: PaperSize;
}

/** A piece on one card, for a page of the web or the catalogue of a library: as high as what it says. */
export const drawCard = (
  score: Score,
  harp: HarpPlan,
  { naming, language }: Pick<EngravingOptions, 'naming' | 'language'>,
): SummaryCard => {
  const sheet = cardSheet(LEAST_HEIGHT_MM, language);
  const blocks = [
    ...writeNames(score, harp, sheet),
    emptySpace(0.8 * EM_MM),
    ...drawOpening(harp, naming, sheet),
    emptySpace(0.8 * EM_MM),
    ...writeFacts(tellFacts(score, harp, naming, sheet), sheet),
  ];
  const needed = blocks.reduce((sum, { heightMm }) => sum + heightMm, 0) + 2 * MARGIN_MM;
  const full = cardSheet(Math.ceil(Math.max(LEAST_HEIGHT_MM, needed)), language);
  return {
    page: overlaySheet(drawFrame(full) + drawBlocks(blocks, MARGIN_MM, MARGIN_MM), full),
    size: full.paper,
  };
};

const cardSheet = (heightMm: number, language: Language): Sheet => ({
  language,
  paper: { widthMm: WIDTH_MM, heightMm },
  marginMm: MARGIN_MM,
  emMm: EM_MM,
  widthMm: WIDTH_MM - 2 * MARGIN_MM,
  heightMm: heightMm - 2 * MARGIN_MM,
});

const drawFrame = ({ paper }: Sheet): string =>
  frameRectangle(
    { x: 1, y: 1, widthMm: paper.widthMm - 2, heightMm: paper.heightMm - 2 },
    { widthMm: 0.3, colour: '#999' },
  );

const writeNames = (score: Score, harp: HarpPlan, sheet: Sheet): readonly Block[] => {
  const { section, heading, text } = letteringsOf(sheet);
  const { title, subtitle, authors, harp: part } = collectFacts(score, harp);
  const lines = [
    [title, section],
    [subtitle, heading],
    [joinTitles(...authors, part === title ? '' : part), text],
  ] as const;
  return lines.flatMap(([words, lettering]) => writeParagraph(words, sheet.widthMm, { lettering }));
};

/** How wide the setting of a pedal harp is, as a share of the card. */
const DIAGRAM_SHARE = 0.42;

const drawOpening = (harp: HarpPlan, naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const { strong } = letteringsOf(sheet);
  const lever = harp.kind === 'lever';
  const { study, levers } = wordsOf(sheet);
  const head = writeParagraph(lever ? levers.strings : study.opening, sheet.widthMm, { lettering: strong });
  if (lever) return [...head, drawStrings(harp.plan, harp.profile, naming, sheet)];
  const widthMm = DIAGRAM_SHARE * sheet.widthMm;
  return [...head, ...drawSettingWide(harp.plan.initial, naming, widthMm)];
};

/** What is told of the piece: each fact by its name. */
const tellFacts = (
  score: Score,
  harp: HarpPlan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly (readonly [name: string, told: string])[] => {
  const words = wordsOf(sheet);
  const { card, difficulty, labelled, set } = words;
  const { playable, changes, playedChangesPerMinute, seconds, bars } = collectFacts(score, harp);
  const tempo = tellTempo(score, words);
  const { failing, measures } = harp.plan.summary.difficulty;
  const told = tellGrade(harp.plan.summary.difficulty, words);
  const verdict = difficulty.verdict(failing, measures, harp.kind);
  return [
    [set.heads.grade, playable ? labelled(told, verdict) : `${told}; ${verdict}`],
    [
      harp.kind === 'pedal' ? card.moves : card.changes,
      changes === 0 ? card.none : card.perMinute(changes, playedChangesPerMinute),
    ],
    [set.heads.length, `${card.lasts(nameSeconds(seconds), bars)}${tempo === null ? '' : ` (${tempo})`}`],
    ...(harp.kind === 'lever' ? ([[card.tuning, nameTuning(harp.plan.tuning, naming, words)]] as const) : []),
    [card.tune, tellToTune(harp, naming, words).join(' ')],
  ].map(([name, told]) => [name!, capitalize(told!)] as const);
};

/** The facts under one another, what is told in a column beside the names. */
const writeFacts = (facts: ReturnType<typeof tellFacts>, sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const widest = Math.max(...facts.map(([name]) => widthOfWords(name, strong)));
  const indentMm = Math.max(9 * EM_MM, widest + EM_MM);
  return facts.flatMap(([name, told]) =>
    writeParagraph(told, sheet.widthMm, { lettering: text, indentMm }).map((line, i) => ({
      ...line,
      draw: (x: number, y: number) =>
        (i === 0 ? drawWords(name, x, y + baselineOf(0, strong), strong) : '') + line.draw(x, y),
    })),
  );
};

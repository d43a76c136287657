import { readFileSync } from 'node:fs';
import type { LeverOptions } from '../../engine/levers/options.ts';
import { convertTune } from '../../engine/score/abc/convert-tune.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import type { Annotation } from '../../render/annotation.ts';
import { completeEngraving, type EngravingChoice } from '../../render/engraving-options.ts';
import { markingsFor } from '../../render/markings/printed-markings.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { annotator } from '../render/shared-annotator.ts';
import { isThorough } from '../thorough.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';

/** A score with choices of how it is drawn. */
export interface Case {
  /** The file, and in words what was chosen. */
  readonly file: string;
  readonly read: () => Uint8Array | Promise<Uint8Array>;
  readonly part?: string;
  readonly engraving?: EngravingChoice;
  /** Given, the part is for the lever harp. */
  readonly levers?: Partial<LeverOptions>;
}

/** Pieces of the corpus that a lever harp is asked for all the same: many changes, and places that cannot be played. */
const LEVER_SCORES = [
  { file: 'mx/freezing.xml' },
  { file: 'openscore-lieder/lc6583907.mxl' },
  { file: 'openscore-lieder/lc6583966.mxl' },
] as const;

/** Tunes on one staff with changes close to each other, by book and number. */
const BEGINNER_TUNES = [
  ['waltzes', '30'],
  ['ashover', '29'],
] as const;

const readTune = async (book: string, tune: string): Promise<Uint8Array> => {
  const text = new TextDecoder().decode(readScoreFile(`tunes/${book}.abc`));
  const converted = await convertTune(text, tune, 'mei');
  if (!converted.ok) throw new Error(converted.problem.code);
  return new TextEncoder().encode(converted.value.text);
};

const LEVER_LOOKS: readonly (readonly [string, EngravingChoice])[] = [
  [', levers by name', {}],
  [', levers as notes', { leverLook: 'notes' }],
];

const inLook = (each: Case, [looks, engraving]: (typeof LEVER_LOOKS)[number]): Case => ({
  ...each,
  file: `${each.file}${looks}`,
  engraving,
  levers: {},
});

const forLevers = (each: Case): Case[] => LEVER_LOOKS.map((look) => inLook(each, look));

const demo = (file: string, looks = '', engraving: EngravingChoice = {}): Case => ({
  file: `${file}${looks}`,
  engraving,
  read: () => new Uint8Array(readFileSync(new URL(`../../server/demo/${file}`, import.meta.url))),
});

/** The demo in both formats, as it is drawn where nothing is chosen. */
export const DEMO_CASES: readonly Case[] = [
  demo('lanterns-at-the-lock.musicxml'),
  demo('lanterns-at-the-lock.mei'),
];

/** Real scores that are drawn with the full corpus alone, for the time that they take: others of like writing are drawn. */
const THOROUGH_ALONE: readonly string[] = [
  "openscore-orchestra/D'un_matin_de_printemps.mxl",
  'mx/freezing.xml',
  'openscore-lieder/lc5060961.mxl',
  'openscore-lieder/lc5060972.mxl',
  'openscore-lieder/lc5902873.mxl',
  'openscore-lieder/lc6486038.mxl',
  'openscore-lieder/lc6199572.mxl',
];

/** The real scores, as they are drawn where nothing is chosen. */
export const REAL_CASES: readonly Case[] = HARP_SCORES.filter(
  ({ file }) => isThorough || !THOROUGH_ALONE.includes(file),
).map(({ file, part }) => ({
  file,
  read: () => readScoreFile(file),
  ...(part === undefined ? {} : { part }),
}));

/** All of them, the real scores where ../shared/scores is there. */
export const CASES: readonly Case[] = [
  ...DEMO_CASES,
  demo('lanterns-at-the-lock.mei', ', letters above', { placement: 'above', settingLook: 'letters-one-row' }),
  demo('lanterns-at-the-lock.mei', ', two rows at every line', {
    settingLook: 'letters-two-rows',
    naming: 'fixed-do',
    settings: { systemStart: true },
    staffMm: 6,
    paper: 'concert-part',
  }),
  ...forLevers(demo('the-ribbon-stall.musicxml')),
  {
    ...demo('the-ribbon-stall.musicxml', ', levers above', { placement: 'above', naming: 'fixed-do' }),
    levers: {},
  },
  {
    ...demo('the-ribbon-stall.musicxml', ', levers for a beginner', { level: 'beginner' }),
    levers: {},
  },
  ...(hasScores ? BEGINNER_TUNES : []).map(
    ([book, tune]): Case => ({
      file: `tunes/${book}.abc, ${tune}, for a beginner`,
      read: () => readTune(book, tune),
      engraving: { level: 'beginner' },
      levers: {},
    }),
  ),
  ...(hasScores ? LEVER_SCORES : []).flatMap(({ file }, i) => {
    const each = { file, read: () => readScoreFile(file) };
    // The one look or the other in turn.
    return isThorough ? forLevers(each) : [inLook(each, LEVER_LOOKS[(i + 1) % 2]!)];
  }),
  ...(hasScores ? REAL_CASES : []),
];

/** A case as it was drawn. */
export interface Drawn {
  readonly annotation: Annotation;
  readonly score: Score;
  /** How many markings are to stand on its pages. */
  readonly planned: number;
}

const known = new Map<string, Promise<Drawn>>();

/** Draws a case as PDF and as SVG; done once for all claims about it. */
export const drawn = (each: Case): Promise<Drawn> => {
  const made = known.get(each.file) ?? draw(each);
  known.set(each.file, made);
  return made;
};

const draw = async ({ part, read, engraving = {}, levers }: Case): Promise<Drawn> => {
  const bytes = await read();
  const options = part === undefined ? {} : { part };
  const annotated = await annotateBytes(
    annotator,
    bytes,
    { ...options, engraving, ...(levers === undefined ? {} : { levers }) },
    'pdf',
  );
  const opened = openScore(bytes, options);
  if (!annotated.ok || !opened.ok) throw new Error(JSON.stringify(annotated));
  // Settings at line starts are known only after the layout.
  const { plan } = annotated.value;
  const complete = completeEngraving(engraving, plan.kind);
  const isToldAtLines = complete.settings.systemStart || complete.leverTables === 'each-line';
  const reminders = isToldAtLines ? lineStarts(annotated.value, opened.value) : [];
  const markings = markingsFor(opened.value, plan, complete, reminders);
  // Of a change that is shown as notes each note is one.
  const planned = markings.reduce(
    (sum, marking) => sum + (marking.kind === 'lever-notes' ? marking.changes.length : 1),
    0,
  );
  return { annotation: annotated.value, score: opened.value, planned };
};

const lineStarts = ({ pages }: Annotation, score: Score): number[] =>
  pages
    .flatMap((page) => page.split('class="system"').slice(1))
    .map((system) => /<g id="([^"]*)" class="measure"/.exec(system)![1]!)
    .map((id) => score.bars.findIndex((bar) => bar.id === id));

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { LeverOptions } from '../../engine/levers/options.ts';
import type { Score } from '../../engine/score/model.ts';
import { openScore } from '../../engine/score/open.ts';
import { type Annotator, createAnnotator } from '../../render/annotate.ts';
import type { Annotation } from '../../render/annotation.ts';
import { completeEngraving, type EngravingChoice } from '../../render/engraving-options.ts';
import { markingsFor } from '../../render/markings/printed-markings.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { changesAgainstNotes } from '../render/changes-against-notes.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';
import { type MeasuredPage, measurePages } from './measured-pages.ts';

const hasChromium = spawnSync('chromium', ['--version']).status === 0;

interface Case {
  readonly file: string;
  readonly read: () => Uint8Array;
  readonly part?: string;
  readonly engraving?: EngravingChoice;
  /** Given, the part is for the lever harp. */
  readonly levers?: Partial<LeverOptions>;
}

/** A small note for a lever is set by the layout engine itself, through which a tie of the file runs here. */
const KNOWN_TOUCHES: Readonly<Record<string, number>> = { 'mx/freezing.xml, levers as notes': 1 };

/** Pieces of the corpus that a lever harp is asked for all the same: many changes, and places that cannot be played. */
const LEVER_SCORES = [
  { file: 'mx/freezing.xml' },
  { file: 'openscore-lieder/lc6583907.mxl' },
  { file: 'openscore-lieder/lc6583966.mxl' },
] as const;

const LEVER_LOOKS: readonly (readonly [string, EngravingChoice])[] = [
  [', levers by name', {}],
  [', levers as notes', { leverLook: 'notes' }],
];

const forLevers = (each: Case): Case[] =>
  LEVER_LOOKS.map(([looks, engraving]) => ({
    ...each,
    file: `${each.file}${looks}`,
    engraving,
    levers: {},
  }));

const demo = (file: string, looks = '', engraving: EngravingChoice = {}): Case => ({
  file: `${file}${looks}`,
  engraving,
  read: () => new Uint8Array(readFileSync(new URL(`../../server/demo/${file}`, import.meta.url))),
});

/** The demo in both formats, and the real scores where ../shared/scores is there. */
const CASES: readonly Case[] = [
  demo('lanterns-at-the-lock.musicxml'),
  demo('lanterns-at-the-lock.mei'),
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
  ...(hasScores ? LEVER_SCORES : []).flatMap((each) =>
    forLevers({ ...each, read: () => readScoreFile(each.file) }),
  ),
  ...(hasScores ? HARP_SCORES : []).map(({ file, part }) => ({
    file,
    read: () => readScoreFile(file),
    ...(part === undefined ? {} : { part }),
  })),
];

interface Measured {
  readonly annotation: Annotation;
  readonly score: Score;
  readonly planned: number;
  readonly pages: readonly MeasuredPage[];
}

const measured = new Map<string, Measured>();
/** A page on which a marking was moved onto the music on purpose. */
let spoilt: MeasuredPage | undefined;

const annotateCase = async (
  annotator: Annotator,
  { part, read, engraving = {}, levers }: Case,
): Promise<Omit<Measured, 'pages'>> => {
  const bytes = read();
  const options = part === undefined ? {} : { part };
  const annotated = await annotateBytes(
    annotator,
    bytes,
    { ...options, engraving, ...(levers === undefined ? {} : { levers }) },
    'svg',
  );
  const opened = openScore(bytes, options);
  if (!annotated.ok || !opened.ok) throw new Error(JSON.stringify(annotated));
  // Settings at line starts are known only after the layout.
  const reminders = engraving.settings?.systemStart === true ? lineStarts(annotated.value, opened.value) : [];
  const { plan } = annotated.value;
  const markings = markingsFor(opened.value, plan, completeEngraving(engraving, plan.kind), reminders);
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

const spoil = (page: string): string =>
  page.replace(
    /(class="pedal-marking[^>]*translate\(\d+(?:\.\d+)? )(\d+)/,
    (_, head: string, y: string) => `${head}${Number(y) - 800}`,
  );

beforeAll(async () => {
  if (!hasChromium) return;
  const annotator = await createAnnotator();
  const annotated: [string, Omit<Measured, 'pages'>][] = [];
  for (const each of CASES) annotated.push([each.file, await annotateCase(annotator, each)]);
  const svgs = annotated.flatMap(([, { annotation }]) => annotation.pages);
  // One browser for all pages: starting it is most of the work.
  const pages = await measurePages([...svgs, spoil(svgs[0]!)]);
  spoilt = pages.at(-1);
  let from = 0;
  for (const [file, each] of annotated) {
    const to = from + each.annotation.pages.length;
    measured.set(file, { ...each, pages: pages.slice(from, to) });
    from = to;
  }
}, 300_000);

const sum = (pages: readonly MeasuredPage[], of: (page: MeasuredPage) => number): number =>
  pages.reduce((total, page) => total + of(page), 0);

describe.skipIf(!hasChromium)(
  'markings touch nothing on the page, as Chromium draws it, and no change starts right of its note (skipped without Chromium)',
  () => {
    it('but one that is moved onto the music does, and is found', () => {
      expect(spoilt!.collisions.map(({ marking }) => marking)).toContain('marking-1');
    });

    it.each(CASES)('$file', ({ file }) => {
      const { annotation, pages, planned, score } = measured.get(file)!;
      const markings = sum(pages, (page) => page.markings);
      const flags = sum(pages, (page) => page.flags);
      const overlaps = pages.flatMap((page) => page.collisions);
      console.info(
        `${file}: ${pages.length} pages, ${markings} markings, ${flags} numbered places, ${overlaps.length} overlaps`,
      );
      expect(markings).toBe(planned);
      expect(flags).toBe(annotation.unplayablePlaces.length);
      expect(sum(pages, (page) => page.offPaper)).toBe(0);
      expect(overlaps, JSON.stringify(overlaps)).toHaveLength(KNOWN_TOUCHES[file] ?? 0);
      const compared = changesAgainstNotes(score, annotation.pages);
      expect(compared.filter(({ start, noteX }) => start > noteX)).toEqual([]);
      expect(annotation.remarks.filter(({ code }) => code === 'page-crowded')).toEqual([]);
    });
  },
);

if (!hasScores) it.skip('real scores: ../shared/scores is absent', () => {});

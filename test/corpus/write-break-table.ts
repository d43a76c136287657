/**
 * Writes `breaks.md`: how the lines and pages of real scores are broken.
 * Run: npx tsx test/corpus/write-break-table.ts [FOLDER]
 *
 * FOLDER holds what another version drew, to stand beside it: for each score of the list in order `<index>.json`, an
 * annotation's `pages` and `turns`.
 */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { planPart } from '../../engine/plan-part.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { createAnnotator } from '../../render/annotate.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import type { BreakRequest } from '../../render/layout/breaks/choose-breaks.ts';
import { pageLayoutOf } from '../../render/layout/breaks/page-layout.ts';
import { turnRater } from '../../render/layout/breaks/page-turns.ts';
import { prepareDocument } from '../../render/layout/document/layout-document.ts';
import { startDrawer } from '../../render/layout/drawer/drawer.ts';
import { measurePart } from '../../render/layout/measure/measure-part.ts';
import { ALL_STAVES } from '../../render/layout/spaces/reserve-spaces.ts';
import { workOut } from '../../render/layout/stepwise.ts';
import { playedNotes } from '../../render/pages/engrave-pages.ts';
import { type BreakQuality, type DrawnPages, measureBreaks } from './break-quality.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';

/** Other parts of the corpus: of one staff, long, with long rests. */
const OTHERS = [
  { file: 'mei-samples/MEI_4.0_Beethoven_StringQuartet_Op18_No1.mei', part: 's1' },
  { file: 'mei-samples/MEI_5.1_Schumann_StringQuartet_Op41_No1.mei', part: 'staff-1' },
  { file: 'mei-samples/MEI_3.0_Bach_BrandenburgConcert_No.4_I.mei', part: 'P2' },
  { file: 'openscore-orchestra/Beach_Op.32_1.mxl', part: 'P3' },
  { file: 'libmusicxml/OrganExample2.xml', part: 'P1' },
  { file: "openscore-orchestra/D'un_matin_de_printemps.mxl", part: 'P2' },
];

const HEADINGS =
  'file, part | version | pages | systems | bars on the last system | stretch: mean ± spread, most | thin pages | turns | without a free hand';

const drawer = await startDrawer();
const annotator = await createAnnotator();
const engraving = completeEngraving({});
const layout = pageLayoutOf(engraving);

const naturalOf = (score: Score): BreakRequest => {
  const request = {
    score,
    harps: [score.harp],
    others: new Set<string>(),
    engraving,
    layout,
    played: playedNotes(planPart(score, {})),
    signEdits: () => [],
    signIds: new Set<string>(),
    cues: { cues: [], score, staves: ALL_STAVES },
    full: ALL_STAVES,
    leftOut: [],
    entries: [],
    spacesFor: () => [],
    early: false,
    under: () => 0,
  };
  const document = prepareDocument(request, drawer)!;
  return workOut(measurePart({ request, document, drawer, rate: turnRater(score) }, []))!;
};

const rowOf = (name: string, version: string, quality: BreakQuality): string => {
  const { hurried, lastBars, pages, stretch, systems, thin, turns } = quality;
  const shown = `${stretch.mean.toFixed(2)} ± ${stretch.spread.toFixed(2)}, ${stretch.most.toFixed(2)}`;
  return `| ${[name, version, pages, systems, lastBars, shown, thin, turns, hurried].join(' | ')} |`;
};

const total = (version: string, all: readonly BreakQuality[]): string => {
  const sum = (of: (quality: BreakQuality) => number): number => all.reduce((now, each) => now + of(each), 0);
  const spread = sum(({ stretch }) => stretch.spread) / all.length;
  const lone = sum(({ lastBars, systems }) => (lastBars === 1 && systems > 1 ? 1 : 0));
  return (
    `| all | ${version} | ${sum(({ pages }) => pages)} | ${sum(({ systems }) => systems)} | ${lone} alone | ` +
    `± ${spread.toFixed(3)}, ${Math.max(...all.map(({ stretch }) => stretch.most)).toFixed(2)} | ` +
    `${sum(({ thin }) => thin)} | ${sum(({ turns }) => turns)} | ${sum(({ hurried }) => hurried)} |`
  );
};

const writeTable = async (folder: string | undefined): Promise<void> => {
  const rows: string[] = [];
  const all: Record<'now' | 'before', BreakQuality[]> = { now: [], before: [] };
  for (const [i, { file, part }] of [...HARP_SCORES, ...OTHERS].entries()) {
    const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
    if (!opened.ok) throw new Error(`${file}: ${opened.problem.code}`);
    const score = opened.value;
    const annotated = await annotator.engrave(score, planPart(score, {}), {}, 'svg');
    if (!annotated.ok) throw new Error(`${file}: ${annotated.problem.code}`);
    const natural = naturalOf(score);
    const name = `${file}, ${score.harp.name.replace(/\s+/g, ' ')}`;
    const told = (version: 'now' | 'before', drawn: DrawnPages): void => {
      const quality = measureBreaks(score, natural, drawn);
      all[version].push(quality);
      rows.push(rowOf(name, version, quality));
    };
    const earlier = `${folder}/${i}.json`;
    if (folder !== undefined && existsSync(earlier))
      told('before', JSON.parse(readFileSync(earlier, 'utf8')) as DrawnPages);
    told('now', annotated.value);
  }
  const text = [
    '# Lines and pages of real scores',
    '',
    'Written by `npx tsx test/corpus/write-break-table.ts` for the usual options (A4, staff of 7 mm). Stretch is the',
    'width of a line over the natural width of its bars, without the last line; thin pages are under 60 % full, are not',
    'the last, and do not end before a turn with a free hand. “Before”: lines and pages as the layout library breaks them,',
    'page ends then moved to rests.',
    '',
    `| ${HEADINGS} |`,
    `|${' --- |'.repeat(HEADINGS.split(' | ').length)}`,
    ...rows,
    ...(all.before.length === 0 ? [] : [total('before', all.before)]),
    total('now', all.now),
    '',
  ].join('\n');
  writeFileSync(new URL('./breaks.md', import.meta.url), text);
  console.log(text);
};

if (hasScores) await writeTable(process.argv[2]);
else console.log('../shared/scores is absent: nothing to tabulate');

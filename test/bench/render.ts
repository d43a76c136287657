import { readFileSync } from 'node:fs';
import { openScore } from '../../engine/score/open.ts';
import { createAnnotator } from '../../render/annotate.ts';
import { HARP_SCORES, hasScores, readScoreFile } from '../corpus/harp-scores.ts';
import { annotateBytes } from '../render/annotate-bytes.ts';
import { startBareVerovio } from './bare-verovio.ts';
import { median } from './stopwatch.ts';

/**
 * What annotating costs beside what drawing the same source costs anyway.
 *
 * `npm run build && npx tsx test/bench/render.ts`: for the demo and the real scores the time of the whole line
 * (read, plan, lay out, draw; to SVG and to PDF) as a multiple of bare Verovio (load, layout, SVG of all pages of the
 * source as it is) in the same process, the two taken in turns; then the memory over 200 scores in one annotator.
 */

const ROUNDS = 5;
/** A full score that bare Verovio needs so long for is drawn once. */
const LONG_MS = 4000;

interface Case {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly part?: string;
}

const demo = (file: string): Case => ({
  file,
  bytes: new Uint8Array(readFileSync(new URL(`../../server/demo/${file}`, import.meta.url))),
});

const cases: readonly Case[] = [
  demo('lanterns-at-the-lock.musicxml'),
  demo('lanterns-at-the-lock.mei'),
  ...(hasScores ? HARP_SCORES : []).map(({ file, part }) => ({
    file,
    bytes: readScoreFile(file),
    ...(part === undefined ? {} : { part }),
  })),
];

const timed = async (work: () => unknown): Promise<number> => {
  const start = performance.now();
  await work();
  return performance.now() - start;
};

const bare = await startBareVerovio();
const annotator = await createAnnotator();

console.info('file: bare Verovio; to SVG; to PDF (medians; multiples of bare)');
for (const { file, bytes, part } of cases) {
  const options = part === undefined ? {} : { part };
  const opened = openScore(bytes, options);
  if (!opened.ok) throw new Error(file);
  const times = { bare: [] as number[], svg: [] as number[], pdf: [] as number[] };
  for (let round = 0; round < ROUNDS && (times.bare[0] ?? 0) < LONG_MS; round += 1) {
    times.bare.push(await timed(() => bare(opened.value.source.text)));
    times.svg.push(await timed(() => annotateBytes(annotator, bytes, options, 'svg')));
    times.pdf.push(await timed(() => annotateBytes(annotator, bytes, options, 'pdf')));
  }
  const base = median(times.bare);
  const of = (list: readonly number[]): string => `${(median(list) / base).toFixed(2)} x`;
  console.info(`${file}: ${base.toFixed(0)} ms; ${of(times.svg)}; ${of(times.pdf)}`);
}

console.info('memory of one annotator (resident, MB):');
const small = cases.filter(({ bytes }) => bytes.length < 200_000);
for (let i = 0; i <= 200; i += 1) {
  const { bytes, part } = small[i % small.length]!;
  annotateBytes(annotator, bytes, part === undefined ? {} : { part }, 'pdf');
  if (i % 40 === 0) console.info(`after ${i} scores: ${(process.memoryUsage().rss / 1e6).toFixed(0)}`);
}

/**
 * Reading time against Verovio's load of the same text (neither unpacks an archive), and as parts grow: medians of warm runs in one process, of the
 * built engine, in processor time.
 * Run after `npm run build`: npx tsx test/bench/read.ts
 */

import { existsSync } from 'node:fs';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { parseSource } from '../../engine/score/open.ts';
import { hasScores, readScoreFile } from '../corpus/harp-scores.ts';
import { writeLongPart } from './long-part.ts';
import { milliseconds, warmTime } from './stopwatch.ts';

/** The part is named where the file does not say which is the harp. */
const FILES: readonly (readonly [file: string, part?: string])[] = [
  ['mx/freezing.xml'],
  ['openscore-orchestra/Brahms_Op.45_1.mxl'],
  ["openscore-orchestra/D'un_matin_de_printemps.mxl"],
  ['openscore-lieder/lc5060972.mxl', 'Piano'],
  ['openscore-lieder/lc6583966.mxl'],
  ['mei-samples/MEI_5.0_Handel_Messias.mei', 'Alto'],
];

const BUILT = new URL('../../dist/engine/index.js', import.meta.url);
if (!existsSync(BUILT)) throw new Error('The engine is not built: npm run build');
const { openScore }: typeof import('../../engine/index.ts') = await import(BUILT.href);

const module = await createVerovioModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);

const compare = (name: string, bytes: Uint8Array, part?: string): void => {
  const options = part === undefined ? {} : { part };
  const source = parseSource(bytes);
  if (!source.ok) throw new Error(source.problem.code);
  const { text } = source.value.source;
  const unpacked = new TextEncoder().encode(text);
  const opened = openScore(unpacked, options);
  if (!opened.ok) throw new Error(`${name}: ${opened.problem.code}`);
  const ours = warmTime(21, () => openScore(unpacked, options));
  const verovio = warmTime(3, () => toolkit.loadData(text));
  console.log(
    `${name}: ours ${milliseconds(ours)}, Verovio ${milliseconds(verovio)} (${(verovio / ours).toFixed(1)} times)`,
  );
};

const benchGrowth = (): void => {
  for (const bars of [50, 500, 2500]) {
    const bytes = new TextEncoder().encode(writeLongPart(bars));
    const time = warmTime(bars < 1000 ? 21 : 5, () => openScore(bytes));
    console.log(`${bars} bars: ${milliseconds(time)} (${((time / bars) * 1000).toFixed(0)} µs a bar)`);
  }
};

benchGrowth();
compare('generated, 500 bars', new TextEncoder().encode(writeLongPart(500)));
if (hasScores) for (const [file, part] of FILES) compare(file, readScoreFile(file), part);

/**
 * Reading time against Verovio's load of the same file, and as parts grow.
 * Run: npx tsx test/bench/read.ts
 */

import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { openScore, parseSource } from '../../engine/score/open.ts';
import { hasScores, readScoreFile } from '../corpus/harp-scores.ts';
import { writeLongPart } from './long-part.ts';
import { milliseconds, quickest } from './stopwatch.ts';

/** The part is named where the file does not say which is the harp. */
const FILES: readonly (readonly [file: string, part?: string])[] = [
  ['mx/freezing.xml'],
  ['openscore-lieder/lc5060972.mxl', 'Piano'],
  ['openscore-lieder/lc6583966.mxl'],
  ['mei-samples/MEI_5.0_Handel_Messias.mei', 'Alto'],
];

const module = await createVerovioModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);

const compare = (name: string, bytes: Uint8Array, part?: string): void => {
  const options = part === undefined ? {} : { part };
  const source = parseSource(bytes);
  if (!source.ok) throw new Error(source.problem.code);
  const { text } = source.value.source;
  const opened = openScore(bytes, options);
  if (!opened.ok) throw new Error(`${name}: ${opened.problem.code}`);
  const ours = quickest(5, () => openScore(bytes, options));
  const verovio = quickest(1, () => toolkit.loadData(text));
  console.log(
    `${name}: ours ${milliseconds(ours)}, Verovio ${milliseconds(verovio)} (${(verovio / ours).toFixed(1)} times)`,
  );
};

const benchGrowth = (): void => {
  for (const bars of [50, 500, 2500]) {
    const bytes = new TextEncoder().encode(writeLongPart(bars));
    const time = quickest(bars < 1000 ? 5 : 2, () => openScore(bytes));
    console.log(`${bars} bars: ${milliseconds(time)} (${((time / bars) * 1000).toFixed(0)} µs a bar)`);
  }
};

benchGrowth();
compare('generated, 500 bars', new TextEncoder().encode(writeLongPart(500)));
if (hasScores) for (const [file, part] of FILES) compare(file, readScoreFile(file), part);

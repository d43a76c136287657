import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type ParsedSource, parseSource } from '../../engine/score/open.ts';
import { isThorough } from '../thorough.ts';

/** Real scores by others, outside the repository: see their README. */
export const CORPUS = fileURLToPath(new URL('../../../shared/scores', import.meta.url));

/** Take a minute or more each in Verovio: read only with TRINGLE_THOROUGH=1. */
const LARGE: readonly string[] = [
  'openscore-orchestra/Beach_Op.32_1.mxl',
  'openscore-orchestra/Beethoven_Op.125_4.mxl',
  "openscore-orchestra/D'un_matin_de_printemps.mxl",
  'mei-samples/MEI_3.0_Bach_BrandenburgConcert_No.4_I.mei',
  'mx/freezing.xml',
];

export const isCorpusThere = existsSync(CORPUS);

/** Paths of the scores within the corpus; empty where it is absent. */
export const corpusFiles = (): readonly string[] => {
  if (!isCorpusThere) return [];
  return readdirSync(CORPUS, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.(mei|mxl|musicxml|xml)$/.test(path))
    .filter((path) => isThorough || !LARGE.includes(path))
    .sort();
};

/** @returns null for files that are no scores: those made to fail */
export const readCorpusFile = (path: string): ParsedSource | null => {
  const parsed = parseSource(readFileSync(join(CORPUS, path)));
  return parsed.ok ? parsed.value : null;
};

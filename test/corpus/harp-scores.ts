import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { isThorough } from '../thorough.ts';

/** A real score of harp writing or of harp-like piano writing, kept outside the project (see its README there). */
export interface HarpScore {
  readonly file: string;
  readonly role: 'harp' | 'proxy';
  /** The part to annotate where the score names no harp. */
  readonly part?: string;
}

export const HARP_SCORES: readonly HarpScore[] = [
  { file: "openscore-orchestra/D'un_matin_de_printemps.mxl", role: 'harp' },
  { file: 'openscore-orchestra/Brahms_Op.45_1.mxl', role: 'harp' },
  { file: 'mx/freezing.xml', role: 'harp' },
  { file: 'mx/FreezingSmall.xml', role: 'harp' },
  { file: 'mx/Bombe.xml', role: 'harp' },
  { file: 'openscore-lieder/lc6583907.mxl', role: 'harp' },
  { file: 'openscore-lieder/lc6583966.mxl', role: 'harp' },
  { file: 'openscore-lieder/lc6486038.mxl', role: 'harp', part: 'Piano' },
  { file: 'openscore-lieder/lc5060972.mxl', role: 'proxy', part: 'Piano' },
  { file: 'openscore-lieder/lc5060961.mxl', role: 'proxy', part: 'Piano' },
  { file: 'openscore-lieder/lc5902873.mxl', role: 'proxy', part: 'Piano' },
  { file: 'openscore-lieder/lc29989154.mxl', role: 'proxy', part: 'Piano' },
  { file: 'openscore-lieder/lc5051724.mxl', role: 'proxy', part: 'Piano' },
  { file: 'openscore-lieder/lc6199572.mxl', role: 'proxy', part: 'Piano' },
];

const FOLDER = fileURLToPath(new URL('../../../shared/scores/', import.meta.url));

export const hasScores = existsSync(FOLDER);

/** The largest of the scores, left to the full corpus except where a test names them. */
const LARGE: readonly string[] = [
  "openscore-orchestra/D'un_matin_de_printemps.mxl",
  'mx/freezing.xml',
  'openscore-lieder/lc5060961.mxl',
  'openscore-lieder/lc5060972.mxl',
  'openscore-lieder/lc5902873.mxl',
];

/** The scores for claims that lay one out or plan it many times. */
export const SMALLER_HARP_SCORES: readonly HarpScore[] = isThorough
  ? HARP_SCORES
  : HARP_SCORES.filter(({ file }) => !LARGE.includes(file));

export const readScoreFile = (file: string): Uint8Array => new Uint8Array(readFileSync(`${FOLDER}${file}`));

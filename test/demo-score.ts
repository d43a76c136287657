import { readFileSync } from 'node:fs';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';

/** One of the demo pieces, read. */
export const demoScore = (name: 'lanterns-at-the-lock' | 'the-ribbon-stall'): Score => {
  const url = new URL(`../server/demo/${name}.musicxml`, import.meta.url);
  const opened = openScore(new Uint8Array(readFileSync(url)));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

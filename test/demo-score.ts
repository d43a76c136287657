import { readFileSync } from 'node:fs';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';

type DemoName = 'lanterns-at-the-lock' | 'the-ribbon-stall';

/** The file of one of the demo pieces. */
export const demoFile = (name: DemoName): Buffer =>
  readFileSync(new URL(`../server/demo/${name}.musicxml`, import.meta.url));

/** One of the demo pieces, read. */
export const demoScore = (name: DemoName): Score => {
  const opened = openScore(new Uint8Array(demoFile(name)));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

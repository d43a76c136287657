import { readFileSync } from 'node:fs';
import { strToU8 } from 'fflate';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';

type DemoName = 'lanterns-at-the-lock' | 'the-ribbon-stall';

/** The file of one of the demo pieces. */
export const demoFile = (name: DemoName): Buffer =>
  readFileSync(new URL(`../server/demo/${name}.musicxml`, import.meta.url));

/** Enough of the demo for a page with several moves. */
const BARS = 16;

/** The first bars of one of the demo pieces, as a file: its first page, which is planned as in the whole. */
export const demoBeginning = (name: DemoName): string => {
  const [head, ...parts] = demoFile(name).toString('utf8').split('<part ');
  const cut = parts.map(
    (part) => `${part.split('</measure>').slice(0, BARS).join('</measure>')}</measure></part>`,
  );
  return `${[head, ...cut].join('<part ')}</score-partwise>`;
};

/** One of the demo pieces, read: the first bars of it, or the whole. */
export const demoScore = (name: DemoName, extent: 'beginning' | 'whole' = 'whole'): Score => {
  const file = extent === 'whole' ? new Uint8Array(demoFile(name)) : strToU8(demoBeginning(name));
  const opened = openScore(file);
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** How long small plans take while others have scores planned that are made to take long. */

import { setTimeout as pass } from 'node:timers/promises';
import { demoFile } from '../demo-score.ts';
import { type RunningService, send } from '../server/running-service.ts';
import { chordOf, emptyBars, glissandiInOneBar, oneNoteBars } from './hostile-scores.ts';

const DEMO = demoFile('lanterns-at-the-lock');

/** In ascending order, the value below which a share of all lies. */
export const percentile = (list: readonly number[], share: number): number =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))] ?? Number.NaN;

/** Sent one after the other on each of two lanes: what is refused, and the longest that is not. */
const HOSTILE = [
  oneNoteBars(10_000),
  chordOf(50_000),
  oneNoteBars(3_000),
  emptyBars(100_000),
  emptyBars(10_000),
  glissandiInOneBar(8_000),
  glissandiInOneBar(2_000),
  oneNoteBars(20_000),
].map((text) => new TextEncoder().encode(text));

export interface FairShares {
  readonly aloneMs: readonly number[];
  readonly besideMs: readonly number[];
  readonly healthMs: readonly number[];
  /** Answers to the hostile scores, by status. */
  readonly statuses: Readonly<Record<string, number>>;
}

const timed = async (ask: () => Promise<Response>): Promise<number> => {
  const since = performance.now();
  const response = await ask();
  await response.arrayBuffer();
  if (!response.ok) throw new Error(`${response.status}`);
  return performance.now() - since;
};

/** @param plans how many small plans are measured, alone and beside the others */
export const measureFairShares = async (service: RunningService, plans: number): Promise<FairShares> => {
  const plan = () => timed(() => send(service.url, '/v1/plan', 'application/json', DEMO));
  const planMany = async (): Promise<readonly number[]> => {
    const taken: number[] = [];
    for (let number = 0; number < plans; number += 1) {
      taken.push(await plan());
      await pass(20);
    }
    return taken;
  };
  // The first warm the threads.
  for (let run = 0; run < 10; run += 1) await plan();
  const aloneMs = await planMany();
  const statuses: Record<string, number> = {};
  const healthMs: number[] = [];
  const ended = new AbortController();
  const attack = async (start: number): Promise<void> => {
    for (let number = start; !ended.signal.aborted; number += 1) {
      const body = HOSTILE[number % HOSTILE.length]!;
      const response = await fetch(`${service.url}/v1/plan`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/octet-stream' },
        body: new Uint8Array(body),
        signal: ended.signal,
      }).catch(() => null);
      if (response === null) return;
      await response.arrayBuffer().catch(() => {});
      statuses[response.status] = (statuses[response.status] ?? 0) + 1;
    }
  };
  const watch = async (): Promise<void> => {
    while (!ended.signal.aborted) {
      healthMs.push(await timed(() => fetch(`${service.url}/healthz`)));
      await pass(50);
    }
  };
  const others = Promise.all([attack(0), attack(1), watch()]);
  await pass(1_000);
  const besideMs = await planMany();
  ended.abort();
  await others;
  return { aloneMs, besideMs, healthMs, statuses };
};

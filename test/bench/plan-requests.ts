/**
 * Planning some bars over HTTP at every change, as a notation program asks: one client, one request after the other,
 * each of other bytes, so that no answer is known.
 * Run after a build: npx tsx test/bench/plan-requests.ts
 */

import { startService } from '../server/running-service.ts';
import { writeLongPart } from './long-part.ts';
import { milliseconds } from './stopwatch.ts';

const BARS = 8;
const WARMING = 200;
const MEASURED = 500;

const service = await startService({ LOG_LEVEL: 'error' });

const ask = async (seed: number): Promise<number> => {
  const body = writeLongPart(BARS, seed);
  const start = performance.now();
  const response = await fetch(`${service.url}/v1/plan`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/vnd.recordare.musicxml+xml' },
    body,
  });
  await response.arrayBuffer();
  if (!response.ok) throw new Error(`status ${response.status}`);
  return performance.now() - start;
};

for (let i = 0; i < WARMING; i += 1) await ask(i);
const times: number[] = [];
for (let i = 0; i < MEASURED; i += 1) times.push(await ask(WARMING + i));
times.sort((a, b) => a - b);
const [median, late] = [times[MEASURED / 2]!, times[Math.floor(MEASURED * 0.99)]!];
console.log(
  `POST /v1/plan, ${BARS} bars: median ${milliseconds(median)}, 99th percentile ${milliseconds(late)} (${(late / median).toFixed(1)} times)`,
);
service.process.kill('SIGTERM');
await service.ended;

/**
 * Planning some bars over HTTP at every change, as a notation program asks: one client, one request after the other,
 * each of other bytes, so that no answer is known.
 * Run after a build: npx tsx test/bench/plan-requests.ts
 */

import { startService } from '../server/running-service.ts';
import { writeLongPart } from './long-part.ts';
import { milliseconds, processorTimeOf } from './stopwatch.ts';

const BARS = 8;
/** So many until JavaScript has compiled what is run often. */
const WARMING = 1500;
const MEASURED = 500;

const service = await startService({ LOG_LEVEL: 'error' });

/** Of one request, in milliseconds: what the client waits, and the processor time of all of the service's threads. */
interface Asked {
  readonly waited: number;
  readonly worked: number;
}

const ask = async (seed: number): Promise<Asked> => {
  const body = writeLongPart(BARS, seed);
  const workedBefore = processorTimeOf(service.process);
  const start = performance.now();
  const response = await fetch(`${service.url}/v1/plan`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/vnd.recordare.musicxml+xml' },
    body,
  });
  await response.arrayBuffer();
  const waited = performance.now() - start;
  if (!response.ok) throw new Error(`status ${response.status}`);
  return { waited, worked: processorTimeOf(service.process) - workedBefore };
};

const describeSpread = (times: readonly number[]): string => {
  const sorted = times.toSorted((a, b) => a - b);
  const [median, late] = [sorted[MEASURED / 2]!, sorted[Math.floor(MEASURED * 0.99)]!];
  return `median ${milliseconds(median)}, 99th percentile ${milliseconds(late)} (${(late / median).toFixed(1)} times)`;
};

for (let i = 0; i < WARMING; i += 1) await ask(i);
const asked: Asked[] = [];
for (let i = 0; i < MEASURED; i += 1) asked.push(await ask(WARMING + i));
console.log(`POST /v1/plan, ${BARS} bars: ${describeSpread(asked.map(({ waited }) => waited))}`);
console.log(`processor time of the service: ${describeSpread(asked.map(({ worked }) => worked))}`);
service.process.kill('SIGTERM');
await service.ended;

/**
 * Planning some bars over HTTP at every change, as a notation program asks: one client, one request after the other,
 * each of other bytes, so that no answer is known. Parts differ in what they ask of the planner; so each is also measured
 * by itself, as what a request takes of the median that the same part takes.
 * Run after a build: npx tsx test/bench/plan-requests.ts
 */

import { startService } from '../server/running-service.ts';
import { writeLongPart } from './long-part.ts';
import { median, milliseconds, processorTimeOf } from './stopwatch.ts';

const BARS = 8;
/** So many until JavaScript has compiled what is run often. */
const WARMING = 1500;
const MEASURED = 500;
/** Parts that are asked again and again, `MEASURED` times in all. */
const PARTS = 10;

const service = await startService({ LOG_LEVEL: 'error' });

/** Of one request, in milliseconds: what the client waits, and the processor time of all of the service's threads. */
interface Asked {
  readonly waited: number;
  readonly worked: number;
}

const ask = async (body: string): Promise<Asked> => {
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

/** Which of some numbers a share of them does not exceed. */
const atShare = (numbers: readonly number[], share: number): number =>
  numbers.toSorted((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))]!;

const describeSpread = (times: readonly number[]): string => {
  const [middle, late] = [median(times), atShare(times, 0.99)];
  return `median ${milliseconds(middle)}, 99th percentile ${milliseconds(late)} (${(late / middle).toFixed(1)} times)`;
};

/** Of each time, how often it has the median of its part. */
const ofOwnMedian = (parts: readonly (readonly number[])[]): string => {
  const times = parts.flatMap((own) => own.map((each) => each / median(own)));
  const shares = [0.9, 0.95, 0.99].map((share) => `${100 * share}%: ${atShare(times, share).toFixed(1)}`);
  const medians = parts.map(median).sort((a, b) => a - b);
  return `times its own part's median, ${shares.join(', ')} (medians of the parts ${milliseconds(medians[0]!)} to ${milliseconds(medians.at(-1)!)})`;
};

const tell = (asked: readonly Asked[], told: (times: readonly number[]) => string): void => {
  console.log(`  waited: ${told(asked.map(({ waited }) => waited))}`);
  console.log(`  processor time of the service: ${told(asked.map(({ worked }) => worked))}`);
};

for (let i = 0; i < WARMING; i += 1) await ask(writeLongPart(BARS, i));
const asked: Asked[] = [];
for (let i = 0; i < MEASURED; i += 1) asked.push(await ask(writeLongPart(BARS, WARMING + i)));
console.log(`POST /v1/plan, ${BARS} bars, ${MEASURED} parts:`);
tell(asked, describeSpread);

const again: Asked[][] = Array.from({ length: PARTS }, () => []);
for (let i = 0; i < MEASURED; i += 1) {
  const part = i % PARTS;
  again[part]!.push(await ask(`${writeLongPart(BARS, part)}<!-- ${i} -->`));
}
console.log(`${PARTS} parts, each ${MEASURED / PARTS} times, one after the other:`);
tell(again.flat(), describeSpread);
console.log(`  waited: ${ofOwnMedian(again.map((own) => own.map(({ waited }) => waited)))}`);
console.log(`  processor time: ${ofOwnMedian(again.map((own) => own.map(({ worked }) => worked)))}`);
service.process.kill('SIGTERM');
await service.ended;

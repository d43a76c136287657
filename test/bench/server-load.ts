/**
 * The service under twice the load it can carry: plans, drawings and PDFs at once, on loopback.
 * Run: npm run load (needs the build); `--seconds 60 --requests 2000` are the defaults, `--requests 0` leaves out the second part.
 */

import { createHash } from 'node:crypto';
import { availableParallelism } from 'node:os';
import { setTimeout as pass } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import autocannon from 'autocannon';
import { demoFile } from '../demo-score.ts';
import { measure, send, startService } from '../server/running-service.ts';
import { measureFairShares, percentile } from './fair-shares.ts';
import { writeLongPart } from './long-part.ts';

const DEMO = demoFile('lanterns-at-the-lock');

const { values } = parseArgs({
  options: { seconds: { type: 'string', default: '60' }, requests: { type: 'string', default: '2000' } },
});

const SECONDS = Number(values.seconds);

interface Kind {
  readonly name: string;
  readonly path: string;
  readonly accept: string;
  readonly body: Uint8Array;
  /** Of the drawings; plans come on top. */
  readonly share: number;
}

const SHORT = new TextEncoder().encode(writeLongPart(8));
const LONG = new TextEncoder().encode(writeLongPart(150));

/** What is drawn takes a second and more; a plan takes milliseconds, and must still do so. */
const KINDS: readonly Kind[] = [
  { name: 'plan', share: 0, path: '/v1/plan', accept: 'application/json', body: DEMO },
  { name: 'SVG', share: 0.4, path: '/v1/annotate', accept: 'image/svg+xml', body: DEMO },
  { name: 'PDF', share: 0.4, path: '/v1/annotate', accept: 'application/pdf', body: DEMO },
  { name: 'PDF of 150 bars', share: 0.2, path: '/v1/annotate', accept: 'application/pdf', body: LONG },
];

/**
 * A connection asks once a second at most, and waits for its answer: while that takes so long, as many more ask as often as
 * wanted.
 */
const DRAWING_SECONDS = 4;

const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const service = await startService({ LOG_LEVEL: 'error', QUEUE: '4' });
let stopping = false;
void service.ended.then((code) => {
  if (stopping) return;
  console.log(`FAILED the service ended by itself, with ${code}\n${service.log()}`);
  process.exit(1);
});

/** The right answer of each kind, which all others are held against, and how long it takes by itself. */
const rightAnswer = async ({ path, accept, body }: Kind): Promise<{ digest: string; seconds: number }> => {
  const ask = async () => {
    const since = performance.now();
    const response = await send(service.url, path, accept, body);
    if (response.status !== 200) throw new Error(`${path}: ${response.status}`);
    const bytes = new Uint8Array(await response.arrayBuffer());
    return { digest: digest(bytes), seconds: (performance.now() - since) / 1000 };
  };
  // The first warms the threads.
  for (let run = 0; run < 4; run += 1) await ask();
  return ask();
};

interface Tally {
  right: number;
  wrong: number;
  busy: number;
  other: number;
  readonly takenMs: number[];
  readonly refusedMs: number[];
}

/** Plans a second: what a page does that plans anew at every change. */
const PLANS_A_SECOND = 2;

/**
 * Asks for one kind so many times a second, whatever becomes of it; each full answer is compared. The connections start
 * one after the other, so that requests come evenly through each second, as those of many users do.
 */
const ask = async (kind: Kind, rate: number, right: string): Promise<Tally> => {
  const tally: Tally = { right: 0, wrong: 0, busy: 0, other: 0, takenMs: [], refusedMs: [] };
  const connections = kind.share === 0 ? rate : rate * DRAWING_SECONDS;
  await Promise.all(
    Array.from({ length: connections }, async (_, i) => {
      await pass((1000 * (i + Math.random())) / connections);
      await askOn(kind, right, tally);
    }),
  );
  return tally;
};

/** Asks once a second on one connection. */
const askOn = async (kind: Kind, right: string, tally: Tally): Promise<void> => {
  await autocannon({
    url: `${service.url}${kind.path}`,
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream', accept: kind.accept },
    body: Buffer.from(kind.body),
    connections: 1,
    connectionRate: 1,
    duration: SECONDS,
    timeout: 60,
    setupClient: (client) => {
      const chunks: Buffer[] = [];
      client.on('body', (chunk) => chunks.push(Buffer.from(chunk)));
      client.on('response', (status, _bytes, milliseconds) => {
        const body = Buffer.concat(chunks.splice(0));
        if (status === 503) {
          tally.busy += 1;
          tally.refusedMs.push(milliseconds);
        } else if (status !== 200) tally.other += 1;
        else {
          tally.takenMs.push(milliseconds);
          if (digest(body) === right) tally.right += 1;
          else tally.wrong += 1;
        }
      });
    },
  });
};

const describeTally = (name: string, { right, wrong, busy, other, takenMs, refusedMs }: Tally): string =>
  `${name}: ${right} right, ${wrong} wrong, ${busy} refused, ${other} other; answered in ${Math.round(percentile(takenMs, 0.5))} ms (p99 ${Math.round(percentile(takenMs, 0.99))} ms), refused in p99 ${Math.round(percentile(refusedMs, 0.99))} ms`;

const megabytes = async (): Promise<number> =>
  Math.round((await measure(service.url, 'process_resident_memory_bytes')) / 1e6);

const loadMix = async (): Promise<void> => {
  const rights: { digest: string; seconds: number }[] = [];
  for (const kind of KINDS) rights.push(await rightAnswer(kind));
  const drawing = KINDS.reduce((sum, { share }, i) => sum + share * rights[i]!.seconds, 0);
  const capacity = availableParallelism() / drawing;
  const rates = KINDS.map(({ share }) =>
    share === 0 ? PLANS_A_SECOND : Math.max(1, Math.round(2 * capacity * share)),
  );
  console.log(
    `by themselves: ${KINDS.map(({ name }, i) => `${name} ${Math.round(rights[i]!.seconds * 1000)} ms`).join(', ')}; at most ${capacity.toFixed(1)} drawings a second`,
  );
  console.log(`asked a second at least: ${KINDS.map(({ name }, i) => `${rates[i]} ${name}`).join(', ')}`);
  const lagReads: number[] = [];
  const watch = setInterval(async () => {
    lagReads.push((await measure(service.url, 'nodejs_eventloop_lag_p99_seconds')) * 1000);
  }, 1_000);
  const tallies = await Promise.all(KINDS.map((kind, i) => ask(kind, rates[i]!, rights[i]!.digest)));
  clearInterval(watch);
  for (const [i, tally] of tallies.entries()) console.log(describeTally(KINDS[i]!.name, tally));
  console.log(
    `event-loop delay p99: median of ${lagReads.length} seconds ${percentile(lagReads, 0.5).toFixed(1)} ms, worst ${percentile(lagReads, 1).toFixed(1)} ms`,
  );
  console.log(
    `threads replaced ${await measure(service.url, 'tringle_worker_restarts_total{pool="drawing"}')}, memory ${await megabytes()} MB`,
  );
  if (tallies.some(({ wrong, other }) => wrong + other > 0)) process.exitCode = 1;
};

/** Memory as requests go by, one after the other on each of two lanes: short parts, and a longer one every tenth time. */
const watchMemory = async (requests: number): Promise<void> => {
  const levels: string[] = [];
  let next = 0;
  const lane = async (): Promise<void> => {
    for (let number = next++; number < requests; number = next++) {
      const kind = KINDS[1 + (number % 2)]!;
      const response = await send(service.url, kind.path, kind.accept, number % 10 === 0 ? DEMO : SHORT);
      await response.arrayBuffer();
      if (response.status !== 200) throw new Error(`${response.status}`);
      if ((number + 1) % Math.ceil(requests / 8) === 0) levels.push(`${number + 1}: ${await megabytes()} MB`);
    }
  };
  await Promise.all([lane(), lane()]);
  console.log(`memory after annotate requests: ${levels.join(', ')}`);
};

/** Small plans alone and beside two lanes of scores that are made to take long. */
const loadHostile = async (): Promise<void> => {
  const { aloneMs, besideMs, healthMs, statuses } = await measureFairShares(service, 100);
  const tell = (list: readonly number[]): string =>
    `${Math.round(percentile(list, 0.5))} ms (p99 ${Math.round(percentile(list, 0.99))} ms)`;
  const ratio = percentile(besideMs, 0.99) / percentile(aloneMs, 0.99);
  console.log(
    `small plans alone ${tell(aloneMs)}, beside two hostile clients ${tell(besideMs)}: ${ratio.toFixed(1)} times; health ${tell(healthMs)}; hostile scores answered`,
    statuses,
  );
  if (!(ratio < 3)) process.exitCode = 1;
};

await loadHostile();
await loadMix();
if (Number(values.requests) > 0) await watchMemory(Number(values.requests));
stopping = true;
service.process.kill('SIGTERM');
console.log(`ended with ${await service.ended}`);
process.stdout.write(service.log());

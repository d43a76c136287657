/**
 * Sends changed scores to the built service, on loopback.
 * Run: npm run fuzz -- --seed 1 --count 20000 --minutes 30; `--mutant N --write FILE` writes one changed file instead.
 */

import { writeFileSync } from 'node:fs';
import { setTimeout as pass } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { measure, startService } from '../server/running-service.ts';
import { fuzzService, listSeeds } from './fuzz-service.ts';
import { sendHostileCases } from './hostile-cases.ts';
import { mutantRandom, mutate } from './mutate.ts';
import { tellHealth, watchHealth } from './watch-health.ts';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    count: { type: 'string', default: '20000' },
    minutes: { type: 'string', default: '60' },
    mutant: { type: 'string' },
    write: { type: 'string', default: 'mutant.xml' },
  },
});

const LIMIT_SECONDS = 60;

const writeMutant = (number: number): void => {
  const seeds = listSeeds();
  const random = mutantRandom(Number(values.seed), number);
  writeFileSync(values.write, mutate(seeds[Math.floor(random() * seeds.length)]!.bytes, random));
  console.log(`written to ${values.write}`);
};

/** How long the service's main thread was held at most since this was asked last. */
const tellHeld = async (url: string): Promise<string> =>
  `main thread held for at most ${Math.round(1000 * (await measure(url, 'nodejs_eventloop_lag_max_seconds')))} ms`;

const run = async (): Promise<void> => {
  const service = await startService({ LOG_LEVEL: 'error', TIME_LIMIT_SECONDS: `${LIMIT_SECONDS}` });
  let endedEarly = true;
  void service.ended.then(() => {
    if (endedEarly) console.error('the service has ended');
  });
  const calm = watchHealth(service.url);
  await pass(3_000);
  console.log(`calm: ${tellHealth(await calm())}, ${await tellHeld(service.url)}`);
  const attacked = watchHealth(service.url);
  const hostile = await sendHostileCases(service.url, true);
  console.log(
    `hostile cases: ${tellHealth(await attacked())}, ${await tellHeld(service.url)}\n  ${hostile.answers.join('\n  ')}`,
  );
  const fuzzed = watchHealth(service.url);
  const since = performance.now();
  const { tried, statuses, problems, slowestMs, failures } = await fuzzService({
    url: service.url,
    seed: Number(values.seed),
    count: Number(values.count),
    lanes: 4,
    limitMs: LIMIT_SECONDS * 1000,
    until: AbortSignal.timeout(Number(values.minutes) * 60_000),
  });
  console.log(`mutants: ${tellHealth(await fuzzed())}, ${await tellHeld(service.url)}`);
  const restarts = await measure(service.url, 'tringle_worker_restarts_total{pool="drawing"}');
  const memory = await measure(service.url, 'process_resident_memory_bytes');
  endedEarly = false;
  service.process.kill('SIGTERM');
  const code = await service.ended;
  console.log(
    `${tried} mutants of seed ${values.seed} in ${Math.round((performance.now() - since) / 1000)} s`,
  );
  console.log('statuses', statuses);
  console.log('problems', problems);
  console.log(
    `slowest ${Math.round(slowestMs)} ms; drawing threads replaced ${restarts}; memory ${Math.round(memory / 1e6)} MB; ended with ${code}`,
  );
  const all = [...hostile.failures, ...failures];
  for (const failure of all) console.log(`FAILED ${failure}`);
  process.stdout.write(service.log());
  process.exitCode = all.length === 0 && code === 0 ? 0 : 1;
};

if (values.mutant === undefined) await run();
else writeMutant(Number(values.mutant));

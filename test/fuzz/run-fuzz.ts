/**
 * Sends changed scores to the built service, on loopback.
 * Run: npm run fuzz -- --seed 1 --count 20000 --minutes 30; `--mutant N --write FILE` writes one changed file instead.
 */

import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { measure, startService } from '../server/running-service.ts';
import { fuzzService, listSeeds } from './fuzz-service.ts';
import { mutantRandom, mutate } from './mutate.ts';

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

const run = async (): Promise<void> => {
  const service = await startService({ LOG_LEVEL: 'error', TIME_LIMIT_SECONDS: `${LIMIT_SECONDS}` });
  let endedEarly = true;
  void service.ended.then(() => {
    if (endedEarly) console.error('the service has ended');
  });
  const since = performance.now();
  const { tried, statuses, problems, slowestMs, failures } = await fuzzService({
    url: service.url,
    seed: Number(values.seed),
    count: Number(values.count),
    lanes: 4,
    limitMs: LIMIT_SECONDS * 1000,
    until: AbortSignal.timeout(Number(values.minutes) * 60_000),
  });
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
  for (const failure of failures) console.log(`FAILED ${failure}`);
  process.stdout.write(service.log());
  process.exitCode = failures.length === 0 && code === 0 ? 0 : 1;
};

if (values.mutant === undefined) await run();
else writeMutant(Number(values.mutant));

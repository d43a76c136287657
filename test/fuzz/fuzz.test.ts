import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningService, startService } from '../server/running-service.ts';
import { cases } from '../thorough.ts';
import { fuzzService } from './fuzz-service.ts';
import { sendHostileCases } from './hostile-cases.ts';
import { mutantRandom, mutate } from './mutate.ts';

let service: RunningService;
beforeAll(async () => {
  service = await startService({ THREADS: '1', LOG_LEVEL: 'error', TIME_LIMIT_SECONDS: '20' });
});
afterAll(async () => {
  service.process.kill('SIGTERM');
  expect(await service.ended).toBe(0);
});

describe('scores and options that are made to harm', () => {
  it('are answered without a fault of the service, and shortly', async () => {
    const { failures, answers } = await sendHostileCases(service.url, false);
    expect(failures, service.log()).toEqual([]);
    expect(answers.filter((each) => / (?:400|413|422) after/.test(each)).length).toBeGreaterThan(5);
  }, 240_000);
});

describe('changed scores', () => {
  it('are answered as described, each of them, in time', async () => {
    const { failures, statuses } = await fuzzService({
      url: service.url,
      seed: 7,
      count: cases(100),
      lanes: 2,
      limitMs: 20_000,
    });
    expect(failures, service.log()).toEqual([]);
    // Both what can still be read and what cannot is among them.
    expect(statuses['200']).toBeGreaterThan(2);
    expect(statuses['400']).toBeGreaterThan(2);
    expect(service.log()).toBe('');
  }, 120_000);

  it('are the same each time for a seed', () => {
    fc.assert(
      fc.property(fc.integer(), fc.uint8Array({ minLength: 1, maxLength: 300 }), (seed, bytes) => {
        const twice = [0, 1].map(() => mutate(bytes, mutantRandom(seed, 3)));
        expect(twice[0]).toEqual(twice[1]);
      }),
      { numRuns: cases(50) },
    );
  });
});

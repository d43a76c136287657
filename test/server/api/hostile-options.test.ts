import fc from 'fast-check';
import supertest from 'supertest';
import { describe, expect, it } from 'vitest';
import { findJsonExcess, JSON_LIMITS } from '../../../server/api/requests/json-limits.ts';
import { annotateOptions } from '../../../server/api/requests/options.ts';
import { readOptions } from '../../../server/api/requests/read-options.ts';
import { describeProblem } from '../../../server/problems.ts';
import { fakeService } from '../fake-service.ts';

const service = fakeService({
  annotate: async () => ({
    ok: true,
    value: { headers: { 'Content-Type': 'application/pdf' }, body: new Uint8Array([37]) },
  }),
});

const sendOptions = (options: string) =>
  supertest(service.app)
    .post('/v1/annotate')
    .attach('score', Buffer.from('<a/>'), 'a.xml')
    .field('options', options);

/** By how many times longer the main thread may be held than by good options as long. */
const MOST_TIMES = 3;

/** Processor time in milliseconds, the least of three: others run beside on this machine. */
const held = (options: string): number =>
  Math.min(
    ...Array.from({ length: 3 }, () => {
      const before = process.cpuUsage();
      readOptions(annotateOptions, '', options);
      return process.cpuUsage(before).user / 1000;
    }),
  );

const many = (entry: string, list = 'pins'): string => {
  const room = JSON_LIMITS.bytes - 20;
  return `{"${list}":[${Array.from({ length: Math.floor(room / (entry.length + 1)) }, () => entry).join(',')}]}`;
};

const HOSTILE: readonly (readonly [string, string])[] = [
  ['a name of 1.9 MB', `{"${'x'.repeat(1_900_000)}":1}`],
  ['a name as long as options may be', `{"${'x'.repeat(JSON_LIMITS.bytes - 10)}":1}`],
  ['a name in a pin', `{"pins":[{"kind":"move","${'y'.repeat(200_000)}":1}]}`],
  ['many names', `{${Array.from({ length: 25_000 }, (_, i) => `"a${i}":0`).join(',')}}`],
  ['many empty pins', many('{}')],
  ['many zeros', many('0')],
  [
    'many broken pins',
    many('{"kind":"move","pedal":"X","position":"sharp","at":{"barIndex":3,"beat":"5/"}}'),
  ],
  [
    'many strings of a harp',
    `{"instrument":{"name":"a","lowest":"C1","highest":"C4","fixed":${many('0').slice(8, -1)}}}`,
  ],
  ['a long part', `{"part":"${'x'.repeat(250_000)}"}`],
  ['a long scordatura', `{"scordatura":"${'A4 +50, '.repeat(30_000)}"}`],
  ['a long number', `{"part":${'1'.repeat(250_000)}}`],
];

const nested = (depth: number): string => `{"part":${'['.repeat(depth)}${']'.repeat(depth)}}`;

describe('options of a form that are made to harm', () => {
  const good = many('{"kind":"move","pedal":"C","position":"sharp","at":{"barIndex":3,"beat":"5/2"}}');
  // What is compiled at the first use counts for none of them.
  held(good);

  it.each(HOSTILE)('by %s are refused at once, and not repeated in full', async (_what, options) => {
    expect(held(options)).toBeLessThan(MOST_TIMES * held(good));
    const response = await sendOptions(options);
    expect([400, 413]).toContain(response.status);
    expect(response.type).toBe('application/problem+json');
    expect(response.text.length).toBeLessThan(5_000);
  });

  it('names the bad one of a long list', () => {
    const pin = '{"kind":"move","pedal":"C","position":"sharp","at":{"barIndex":3,"beat":"5/2"}}';
    const pins = Array.from({ length: 250 }, (_, i) => (i === 230 ? pin.replace('sharp', 'high') : pin));
    expect(readOptions(annotateOptions, '', `{"pins":[${pins.join(',')}]}`)).toMatchObject({
      problem: { code: 'bad-option', option: 'pins.230.position', value: 'high' },
    });
  });

  it.each([17, 8_000, 100_000])(
    'by %i levels of lists are refused, and no fault of the service',
    async (depth) => {
      const response = await sendOptions(nested(depth));
      expect(response.status).toBe(400);
      expect(response.body).toMatchObject({ type: 'urn:tringle:problem:bad-multipart' });
      expect(service.bugs()).toEqual([]);
    },
  );

  it('are told from words that only look nested', () => {
    const part = `${'[{'.repeat(200)}\\"]}${'['.repeat(30)}`;
    expect(findJsonExcess(`{"part":"${part}"}`)).toBeNull();
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 8 }), (value) => {
        expect(findJsonExcess(JSON.stringify({ value }))).toBeNull();
      }),
    );
  });

  it('leave room for 3,500 pins', () => {
    const pin = '{"kind":"move","pedal":"C","position":"sharp","at":{"barIndex":3,"beat":"5/2"}}';
    const pins = `{"pins":[${Array.from({ length: 3_500 }, () => pin).join(',')}]}`;
    expect(readOptions(annotateOptions, '', pins)).toMatchObject({ ok: true });
  });

  it('leave room for a thousand names in each object, and no more', () => {
    const object = (names: number) => `{${Array.from({ length: names }, (_, i) => `"a${i}":0`).join(',')}}`;
    expect(findJsonExcess(`{"pins":[${object(1_000)},${object(1_000)}]}`)).toBeNull();
    expect(findJsonExcess(`{"pins":[${object(1_001)}]}`)).toContain('1000 names');
  });
});

describe('a query that is made to harm', () => {
  it.each(['', 'part=', 'spelling='])('by a long word (%s) is answered shortly', async (start) => {
    const response = await supertest(service.app)
      .post(`/v1/annotate?${start}${'x'.repeat(8_000)}`)
      .set('Content-Type', 'application/xml')
      .send('<a/>');
    expect(response.status).toBe(400);
    expect(response.text.length).toBeLessThan(5_000);
  });
});

describe('the facts of a problem', () => {
  it('are cut where they are long, texts and lists', () => {
    const parts = Array.from({ length: 5_000 }, (_, i) => ({
      id: `P${i}`,
      name: 'Harp '.repeat(1_000),
      staves: 2,
      notes: 1,
    }));
    const { body } = describeProblem({
      code: 'unknown-part',
      option: 'part',
      wanted: 'x'.repeat(100_000),
      parts,
    });
    expect(JSON.stringify(body).length).toBeLessThan(200_000);
  });
});

import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { strToU8, unzipSync, zipSync } from 'fflate';
import request, { type Response, type Test } from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMPARE_CATALOGUE } from '../../engine/compare/catalogue.ts';
import { listOptions } from '../../engine/options/list-options.ts';
import { OPTION_CATALOGUE } from '../../render/option-catalogue.ts';
import { writeDocsPage } from '../../server/api/docs-page.ts';
import { GENERAL_PROBLEMS } from '../../server/api/endpoints/endpoint-problems.ts';
import { ENDPOINTS } from '../../server/api/endpoints/endpoints.ts';
import { describeApi } from '../../server/api/openapi.ts';
import { nameOptions } from '../../server/api/requests/read-options.ts';
import type { AppDependencies } from '../../server/app.ts';
import { createUploadBudget } from '../../server/http/upload-budget.ts';
import { failedFile } from '../../server/jobs/job.ts';
import { describeProblem, PROBLEM_CLASSES } from '../../server/problems.ts';
import type { AnyProblem, AnyProblemCode } from '../../server/service-problem.ts';
import { buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';
import { meiScore } from '../render/small-score.ts';
import { sampleAnnotation } from './annotation-sample.ts';
import { annotating, fakeService } from './fake-service.ts';
import { startPool } from './threads/real-pools.ts';

interface Described {
  readonly parameters: readonly { readonly name: string; readonly in: string }[];
  readonly responses: Readonly<
    Record<string, { readonly content?: Readonly<Record<string, { readonly schema?: object }>> }>
  >;
}

const document = describeApi() as {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Described>>>>;
  readonly components: object;
};

const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: false });
ajv.addSchema({ $id: 'api', components: document.components });

/** The endpoint of the document that a request goes to. */
const findPath = (path: string): string =>
  Object.keys(document.paths).find((each) =>
    new RegExp(`^${each.replace(/\{\w+\}/g, '[^/]+')}$`).test(path),
  ) ?? '';

/** What has been exercised. */
const seen = { endpoints: new Set<string>(), options: new Set<string>(), problems: new Set<string>() };

/** By the text of a schema: to compile one takes longer than a request. */
const validators = new Map<string, ValidateFunction>();

const validatorOf = (schema: string): ValidateFunction => {
  const validator = validators.get(schema) ?? ajv.compile(JSON.parse(schema) as object);
  validators.set(schema, validator);
  return validator;
};

const checkBody = (response: Response, described: Described, type: string): void => {
  const content = described.responses[`${response.status}`]?.content ?? {};
  expect(Object.keys(content), `${response.status} ${type}`).toContain(type);
  const schema = content[type]?.schema;
  if (schema === undefined || !type.includes('json')) return;
  const validate = validatorOf(JSON.stringify(schema).replaceAll('"#/', '"api#/'));
  expect(validate(response.body), ajv.errorsText(validate.errors)).toBe(true);
};

/** Sends a request, and holds the answer against the description. */
const call = async (method: 'get' | 'post' | 'delete', address: string, sent: Test): Promise<Response> => {
  const response = await sent;
  const [path = '', query = ''] = address.split('?');
  const template = findPath(path);
  const described = document.paths[template]?.[method];
  if (described === undefined) throw new Error(`${method} ${path} is not described`);
  expect(Object.keys(described.responses), `${method} ${path}`).toContain(`${response.status}`);
  const type = (response.headers['content-type'] ?? '').split(';')[0]!;
  if (type !== '') checkBody(response, described, type);
  if (type === 'application/problem+json') seen.problems.add(response.body.type.split(':').at(-1));
  if (response.status < 300) {
    seen.endpoints.add(`${method} ${template}`);
    for (const name of new URLSearchParams(query).keys()) seen.options.add(`${method} ${template} ${name}`);
  }
  return response;
};

const XML = 'application/vnd.recordare.musicxml+xml';
const SCORE = buildHarp(note('C4', 2) + note('C#4', 2), note('C4', 4));

const computing = startPool('compute-worker');
afterAll(() => computing.close());

const serviceOf = (changes: Partial<AppDependencies> = {}) =>
  fakeService({
    annotate: annotating(
      ({ format: wish }) => ({
        ok: true,
        value: sampleAnnotation({ pdf: wish.kind === 'pdf' ? new Uint8Array([37]) : null }),
      }),
      { kind: 'musicxml', bytes: new TextEncoder().encode(SCORE) },
    ),
    compute: computing.perform,
    ...changes,
  }).app;

const app = serviceOf();

const post = (path: string, to = app) =>
  call('post', path, request(to).post(path).set('Content-Type', XML).send(SCORE));

const get = (path: string, to = app) => call('get', path, request(to).get(path));

describe('the description of every option', () => {
  const described = (): { name: string; in: string; description?: string }[] =>
    Object.values(describeApi().paths as Record<string, Record<string, { parameters: [] }>>).flatMap(
      (methods) => Object.values(methods).flatMap(({ parameters }) => parameters),
    );

  it('is described where programs and people read of it', async () => {
    const options = described().filter((each) => each.in === 'query');
    expect(options.length).toBeGreaterThan(100);
    expect(options.filter(({ description }) => description === undefined).map(({ name }) => name)).toEqual(
      [],
    );
    const docs = writeDocsPage();
    expect(docs).not.toMatch(/<td>(undefined|null)<\/td>/);
    expect(docs).toMatch(/<code>instrument<\/code><\/td><td>[^<]*lever-harp-34/);
    for (const { description } of options)
      expect(docs).toContain(
        description!.replace(
          /[&<>"]/g,
          (sign) => `&${{ '&': 'amp', '<': 'lt', '>': 'gt', '"': 'quot' }[sign]};`,
        ),
      );
  });

  it('comes with the headers that an answer has: the number of pages, the pages beside, its name', async () => {
    const { headers } = await request(app)
      .post('/v1/annotate')
      .set('Content-Type', XML)
      .set('Accept', 'image/svg+xml')
      .send(SCORE);
    const { paths } = describeApi() as {
      paths: Record<string, { post: { responses: Record<string, { headers: object }> } }>;
    };
    const told = Object.keys(paths['/v1/annotate']!.post.responses['200']!.headers).map((name) =>
      name.toLowerCase(),
    );
    expect(told).toContain('etag');
    for (const name of told) expect(headers[name], name).toBeDefined();
  });
});

describe('the description of the service', () => {
  it('is a valid OpenAPI document', async () => {
    const served = await get('/openapi.json');
    const { valid, errors } = await new Validator().validate(served.body);
    expect(errors ?? []).toEqual([]);
    expect(valid).toBe(true);
    expect(served.body).toEqual(JSON.parse(JSON.stringify(document)));
  });

  it('can be read as a page that loads and runs nothing', async () => {
    const { text, headers } = await get('/docs');
    expect(headers['content-security-policy']).toMatch(/^default-src 'none'; style-src 'sha256-[^']+';/);
    expect(text).not.toMatch(/<script|<link|<img|src=|@import|url\(/);
    for (const { path } of ENDPOINTS) expect(text).toContain(path);
    for (const [name] of Object.entries(PROBLEM_CLASSES)) {
      expect(text).toContain(`urn:tringle:problem:${name}`);
    }
  });

  it('names every problem there is, and none that there is not', () => {
    const named = new Set([...GENERAL_PROBLEMS, ...ENDPOINTS.flatMap(({ problems }) => problems)]);
    expect([...named].sort()).toEqual(Object.keys(PROBLEM_CLASSES).sort());
  });
});

/** Values for options that stand in no catalogue. */
const VALUES: Readonly<Record<string, string>> = {
  music: 'first-bars',
  pageOfBar: '0',
  repair: 'true',
  points: 'true',
  edits: '',
  allHarps: 'true',
  tune: '2',
  setTitle: 'Spring concert',
  movement: '1',
  part: 'P1',
  page: '1',
  pages: 'none',
  instrument: 'concert-harp',
  savedDecisions: 'false',
  output: 'report',
  sound: 'Eb9',
  bar: '1',
  to: 'D C# B E F G A',
  from: 'D C B E F G A',
  only: '1',
  sort: 'changes',
  playable: 'true',
  asTuned: 'true',
  mostChanges: '3',
  set: 'true',
};

const LISTED = new Map(
  [...listOptions(OPTION_CATALOGUE), ...listOptions(COMPARE_CATALOGUE)].map((each) => [each.name, each]),
);

/** Options of the lever harp are taken for a part of its own. */
const FOR_LEVERS: ReadonlySet<string> = new Set(
  [...LISTED.values()].filter(({ harps }) => harps === 'lever').map(({ name }) => name),
);

const MEI_SCORE = Buffer.from(meiScore({ bars: ['c4.1/R'] }));

/** A book of two tunes. */
const TUNES = 'X:1\nT:Sluice\nK:Eb\nEFGA|\n\nX:2\nT:Weir\nK:Bb\nBcde|\n';

/** Something that an option can be. */
const sampleFor = (name: string): string => {
  const option = LISTED.get(name)?.option;
  switch (option?.kind) {
    case undefined:
      return VALUES[name]!;
    case 'switch':
      return 'true';
    case 'one-of':
    case 'named-or-own':
      return Object.keys(option.values).at(-1)!;
    case 'text':
      return option.examples[0]!;
    case 'amount':
    case 'amount-or-never':
      return `${option.most}`;
  }
};

describe('every option', () => {
  const uploads = ENDPOINTS.filter(({ upload }) => upload !== null);

  it.each(uploads.flatMap(({ path, options }) => nameOptions(options!).map(({ name }) => [path, name])))(
    'of %s: %s is taken',
    async (path, name) => {
      const archive = ['allHarps', 'divide'].includes(name!) && path === '/v1/annotate';
      const accept =
        { page: 'image/svg+xml', pageOfBar: 'text/event-stream', repair: XML, edits: XML }[name!] ??
        (archive ? 'application/zip' : 'application/json');
      const pair = name!.startsWith('paper.')
        ? 'paper.widthMm=200&paper.heightMm=280'
        : `${name}=${encodeURIComponent(sampleFor(name!))}`;
      const needed =
        path === '/v1/settings' && name !== 'bar'
          ? '&bar=1'
          : name === 'music'
            ? '&set=true&tuning=C%20major'
            : name === 'setTitle'
              ? '&output=class-set'
              : '';
      const address = `${path}?${pair}${needed}${FOR_LEVERS.has(name!) ? '&instrument=lever-harp-34' : ''}`;
      const [type, body] = ['tune', 'only', 'music'].includes(name!)
        ? ['text/vnd.abc', TUNES]
        : name === 'movement'
          ? ['application/mei+xml', MEI_SCORE]
          : [XML, SCORE];
      const sent = request(app).post(address).set('Content-Type', type).set('Accept', accept).send(body);
      const response = await call('post', address, sent);
      // The service of this test takes few jobs at a time.
      if (response.status !== 503) expect(response.status, response.text).toBeLessThan(300);
      seen.options.add(`post ${path} ${name}`);
    },
  );

  it('of glissandi is taken', async () => {
    const response = await get('/v1/glissandi?sound=Eb9&from=D%20C%20B%20E%20F%20G%20A');
    expect(response.body.exact.length).toBeGreaterThan(0);
    const { body } = await get('/v1/glissandi?sound=dim%207&from=D%20C%20B%20E%20F%20G%20A');
    expect(body).toMatchObject({ sound: 'dim 7', notes: [], pitchClasses: [] });
    expect(body.exact.map(({ sound }: { sound: string }) => sound)).toContain('C, E♭, F♯, A dim 7');
  });

  it('of a setting is taken', async () => {
    const setting = encodeURIComponent('D C B | E F G A');
    const address = `/v1/settings?setting=${setting}&to=D%20C%23%20B%20E%20F%20G%20A&sound=C%20E%20G`;
    const { body } = await get(`${address}&footRestSeconds=0.5`);
    expect(body.way).toMatchObject({ moves: 1, seconds: 0, steps: [{ changes: [{ change: 'C♯' }] }] });
    expect(body.search.holding.settings[0]).toMatchObject({ setting: 'D♮ C♮ B♮ | E♮ F♮ G♮ A♮', moves: 0 });
    expect(body.neighbours).toHaveLength(14);
    expect((await get(`/v1/settings?setting=D`)).status).toBe(400);
  });
});

describe('the table of a tune book', () => {
  const ask = (query: string, accept: string) => {
    const address = `/v1/tunes?instrument=lever-harp-34${query}`;
    const sent = request(app).post(address).set('Content-Type', 'text/vnd.abc').set('Accept', accept);
    return call('post', address, sent.send(TUNES));
  };

  it('comes as data, in the order that is asked for, with the order of a set', async () => {
    const { body } = await ask('&sort=title&set=true', 'application/json');
    expect(body.tunes.map(({ title }: { title: string }) => title)).toEqual(['Sluice', 'Weir']);
    expect(body.set.order).toHaveLength(2);
    expect(body.set.changes).toBe(0);
    expect(body.together).toEqual([[0, 1]]);
    const one = await ask('&only=2', 'application/json');
    expect(one.body.tunes.map(({ number }: { number: string }) => number)).toEqual(['2']);
    const unknown = await ask('&only=2,9', 'application/json');
    expect(unknown.status).toBe(400);
    expect(unknown.body.detail).toContain('numbers of its tunes: 1, 2');
  });

  it('comes as CSV and as sheets to print', async () => {
    const csv = await ask('', 'text/csv');
    expect(csv.text.split('\r\n')[1]).toMatch(/,1,Sluice,E♭ major,E♭ major,/);
    const pdf = await ask('', 'application/pdf');
    expect(pdf.headers['content-type']).toBe('application/pdf');
    expect(pdf.headers['tringle-page-count']).toBe('1');
    const set = await ask('&set=true', 'application/pdf');
    expect(set.headers['tringle-page-count']).toBe('1');
    expect(set.body).not.toEqual(pdf.body);
  });
});

describe('a wall chart', () => {
  it('comes as PDF, with every option', async () => {
    const chart = await get('/v1/handouts/doubled-strings?language=french&naming=german&paper=a3');
    expect(chart.headers['content-type']).toBe('application/pdf');
    expect(chart.headers['content-disposition']).toContain('doubled-strings.pdf');
    const own = await get('/v1/handouts/doubled-strings?paper.widthMm=200&paper.heightMm=280');
    expect(own.status).toBe(200);
  });

  it('comes as SVG, a page at a time', async () => {
    const draw = (page: number) => {
      const address = `/v1/handouts/doubled-strings?page=${page}`;
      return call('get', address, request(app).get(address).set('Accept', 'image/svg+xml'));
    };
    const second = await draw(2);
    const count = Number(second.headers['tringle-page-count']);
    expect(count).toBeGreaterThan(1);
    expect(second.headers.link).toContain('page=1');
    expect((await draw(count + 1)).status).toBe(404);
  });

  it('is refused for a name that there is not, and for a page of a PDF', async () => {
    expect((await get('/v1/handouts/kites')).status).toBe(404);
    expect((await get('/v1/handouts/keys?page=1')).status).toBe(400);
  });
});

describe('every form of an annotated score', () => {
  it.each(['application/pdf', 'image/svg+xml', 'application/json', 'application/vnd.recordare.musicxml+xml'])(
    '%s is as described, and named by its ETag',
    async (accept) => {
      const send = () => request(app).post('/v1/annotate').set('Content-Type', XML).set('Accept', accept);
      const response = await call('post', '/v1/annotate', send().send(SCORE));
      expect(response.status).toBe(200);
      const { etag } = response.headers;
      const again = await call(
        'post',
        '/v1/annotate',
        send().set('If-None-Match', `"x", ${etag}`).send(SCORE),
      );
      expect(again.status).toBe(304);
      expect((await send().set('If-None-Match', '*').send(SCORE)).status).toBe(304);
      const other = await send().set('If-None-Match', etag!).send(`${SCORE} `);
      expect(other.status).toBe(200);
      expect(other.headers.etag).not.toBe(etag);
    },
  );

  it('has another ETag where the options are others', async () => {
    const etags = await Promise.all(
      ['', '?spelling=free', '?density=settings'].map(
        async (query) => (await post(`/v1/plan`.replace('plan', 'annotate') + query)).headers.etag,
      ),
    );
    expect(new Set(etags).size).toBe(3);
  });
});

describe('a part for two', () => {
  it('comes as data, with what the second must play at the least', async () => {
    const send = (accept: string) =>
      request(app).post('/v1/divide').set('Content-Type', XML).set('Accept', accept);
    const data = await call('post', '/v1/divide', send('application/json').send(SCORE));
    expect(data.body.least.sentence).toBe('The least that the second harp must play: nothing.');
    expect(data.body.players).toHaveLength(2);
  });
});

describe('long answers', () => {
  it('are packed where the client can unpack them', async () => {
    const packed = await request(app).get('/openapi.json').set('Accept-Encoding', 'gzip');
    expect(packed.headers['content-encoding']).toBe('gzip');
    expect(packed.headers.vary).toContain('Accept-Encoding');
    const plain = await request(app).get('/openapi.json').set('Accept-Encoding', 'identity');
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(plain.body).toEqual(packed.body);
  });
});

describe('the service about itself', () => {
  it.each(['/healthz', '/readyz', '/metrics', '/v1/instruments', '/docs', '/openapi.json'])(
    '%s answers as described',
    async (path) => {
      expect((await get(path)).status).toBe(200);
    },
  );

  it('says why it is not ready', async () => {
    const busy = serviceOf({ listReadinessProblems: async () => ['no worker thread is running'] });
    const response = await get('/readyz', busy);
    expect(response.status).toBe(503);
    expect(response.body).toEqual({ ready: false, reasons: ['no worker thread is running'] });
  });

  it('measures requests by their pattern, not by their address', async () => {
    const counted = serviceOf();
    await post('/v1/plan?part=Secret', counted);
    await request(counted).get('/secret');
    const { text } = await get('/metrics', counted);
    expect(text).toContain(
      'tringle_http_request_seconds_count{method="POST",route="/v1/plan",status="422"} 1',
    );
    expect(text).toContain('tringle_problems_total{code="unknown-part"} 1');
    expect(text).toContain('route="none",status="404"');
    expect(text.toLowerCase()).not.toContain('secret');
    for (const name of ['nodejs_eventloop_lag_p99_seconds', 'process_resident_memory_bytes']) {
      expect(text).toContain(name);
    }
  });
});

describe('the log', () => {
  it('tells of each request and holds nothing of a score', async () => {
    const { app: told, logged } = fakeService({
      annotate: annotating(() => {
        throw new Error(`cannot draw ${SCORE}`);
      }),
    });
    await request(told).post('/v1/annotate?part=Secret').set('Content-Type', XML).send(SCORE);
    const lines = logged.map((line) => JSON.parse(line));
    expect(lines.at(-1)).toMatchObject({
      msg: 'request',
      method: 'POST',
      route: '/v1/annotate',
      status: 500,
      problem: 'internal',
    });
    expect(logged.join('')).not.toMatch(/Secret|<note|cannot draw/);
  });
});

describe('keys and rates', () => {
  const KEY = 'a-key-of-sixteen-characters';
  const access = { apiKeys: [KEY, 'another-key-of-some-length'], ratePerMinute: 0, trustedProxies: 0 };

  it('let in only who bears a key, and leave the service’s own pages open', async () => {
    const guarded = serviceOf({ access });
    const refused = await get('/v1/instruments', guarded);
    expect(refused.status).toBe(401);
    expect(refused.headers['www-authenticate']).toContain('Bearer');
    for (const header of ['Bearer wrong-key-of-sixteen', `Basic ${KEY}`, `Bearer ${KEY} x`]) {
      const wrong = request(guarded).get('/v1/instruments').set('Authorization', header);
      expect((await wrong).status).toBe(401);
    }
    const right = request(guarded).get('/v1/instruments').set('Authorization', `Bearer ${KEY}`);
    expect((await right).status).toBe(200);
    expect((await get('/healthz', guarded)).status).toBe(200);
  });

  it('stop a client that asks too often, and tell when to come back', async () => {
    const limited = serviceOf({ access: { apiKeys: [], ratePerMinute: 2, trustedProxies: 0 } });
    await get('/v1/instruments', limited);
    await get('/v1/instruments', limited);
    const response = await get('/v1/instruments', limited);
    expect(response.status).toBe(429);
    expect(Number(response.headers['retry-after'])).toBeGreaterThan(0);
    expect((await get('/healthz', limited)).status).toBe(200);
  });
});

describe('jobs', () => {
  const slow = serviceOf({ annotate: () => new Promise(() => {}) });
  let id = '';

  const submit = async (to: typeof app, body: Uint8Array | string = SCORE): Promise<Response> =>
    call(
      'post',
      '/v1/jobs',
      request(to).post('/v1/jobs').set('Content-Type', 'application/zip').send(Buffer.from(body)),
    );

  beforeAll(async () => {
    id = (await submit(slow)).body.id;
  });

  it('have an address, a state, and no result before they are done', async () => {
    expect((await get(`/v1/jobs/${id}`, slow)).body).toMatchObject({ id, state: 'working' });
    expect((await get(`/v1/jobs/${id}/result`, slow)).status).toBe(409);
  });

  it('are refused where too many wait', async () => {
    const answers = await Promise.all(Array.from({ length: 6 }, () => submit(slow)));
    expect(answers.map(({ status }) => status)).toContain(503);
  });

  it('are gone when they are cancelled', async () => {
    const path = `/v1/jobs/${id}`;
    expect((await call('delete', path, request(slow).delete(path))).status).toBe(204);
    expect((await call('delete', path, request(slow).delete(path))).status).toBe(404);
    expect((await get(path, slow)).status).toBe(404);
    expect((await get(`${path}/events`, slow)).status).toBe(404);
  });

  it('tell how far they are as events, and give all results as one archive', async () => {
    const service = serviceOf();
    const archive = zipSync({
      './a.musicxml': strToU8(SCORE),
      'b/a.mei': strToU8(SCORE),
      '.hidden.xml': strToU8(SCORE),
      'c.txt': strToU8('x'),
    });
    const { body, headers } = await submit(service, archive);
    expect(headers.location).toBe(body.links.self);
    const events = await get(body.links.events, service);
    expect(events.text).toMatch(/event: end\ndata: \{.*"state":"done"/);
    expect((await get(body.links.self, service)).body.files).toMatchObject([
      { name: './a.musicxml', state: 'done', result: 'a.pdf' },
      { name: 'b/a.mei', state: 'done', result: 'b/a.pdf' },
      { name: 'c.txt', state: 'skipped', result: null, problem: null },
    ]);
    const result = await call(
      'get',
      body.links.result,
      request(service)
        .get(body.links.result)
        .buffer(true)
        .parse((response, done) => {
          const chunks: Buffer[] = [];
          response.on('data', (chunk: Buffer) => chunks.push(chunk));
          response.on('end', () => done(null, Buffer.concat(chunks)));
        }),
    );
    expect(result.headers['content-type']).toBe('application/zip');
    expect(Object.keys(unzipSync(result.body)).sort()).toEqual(['a.pdf', 'b/a.pdf']);
  });

  it('of one score beside other files have that score’s result, not an archive', async () => {
    const { body } = await submit(app, zipSync({ 'a.xml': strToU8(SCORE), 'readme.txt': strToU8('x') }));
    await get(body.links.events);
    expect((await get(body.links.result)).headers['content-type']).toBe('application/pdf');
  });

  it('give only what the option output names: Accept is not passed over', async () => {
    const ask = (query: string, accept: string): Promise<Response> => {
      const sent = request(app).post(`/v1/jobs${query}`).set('Content-Type', XML).set('Accept', accept);
      return call('post', `/v1/jobs${query}`, sent.send(SCORE));
    };
    for (const accept of ['*/*', 'application/json', 'application/pdf', 'application/zip']) {
      expect((await ask('', accept)).status, accept).toBe(202);
    }
    const refused = await ask('?output=report', 'application/pdf');
    expect(refused.body).toMatchObject({ status: 406, option: 'output' });
    expect(refused.body.detail).toContain('the option output');
    expect((await ask('', 'image/svg+xml')).status).toBe(406);
  });

  it('have a result that is not sent as what it is not', async () => {
    const { body } = await submit(app);
    await get(body.links.events);
    const { result } = body.links;
    const refused = await call('get', result, request(app).get(result).set('Accept', 'application/mei+xml'));
    expect(refused.body).toMatchObject({ status: 406, offered: ['application/pdf'], option: 'output' });
    const taken = await call('get', result, request(app).get(result).set('Accept', 'application/pdf'));
    expect(taken.status).toBe(200);
  });

  it('are where an archive of scores is sent to, which is told where it came to another address', async () => {
    const archive = Buffer.from(zipSync({ 'a/part.musicxml': strToU8(SCORE) }));
    const typed = request(app).post('/v1/annotate').set('Content-Type', 'application/zip').send(archive);
    const refused = await call('post', '/v1/annotate', typed);
    expect(refused.status).toBe(415);
    expect(refused.body.detail).toContain('/v1/jobs');
    const told = (entries: readonly string[]) =>
      describeProblem({ code: 'archive-without-score', entries }).body.detail;
    expect(told(['a/part.musicxml'])).toContain('/v1/jobs');
    expect(told(['a/readme.txt'])).not.toContain('/v1/jobs');
  });

  it('of more scores than are taken fail by name', async () => {
    const scores = Array.from({ length: 11 }, (_, i) => [`${i}.xml`, strToU8(SCORE)]);
    const { body } = await submit(app, zipSync(Object.fromEntries(scores)));
    await get(body.links.events);
    expect((await get(body.links.result)).body).toMatchObject({ status: 413, limit: 10, found: 11 });
  });
});

/** A problem of each kind that the renderer or the queue can have. */
const RENDERED: readonly AnyProblem[] = [
  { code: 'empty-input' },
  { code: 'unknown-encoding', encoding: 'x' },
  { code: 'bad-characters', encoding: 'utf-8', offset: 1 },
  { code: 'malformed-xml', message: 'x', line: 1, column: 1 },
  { code: 'archive-corrupt', message: 'x' },
  { code: 'not-a-score', found: 'a PDF' },
  { code: 'entity-refused', entity: 'x', line: 1, column: 1 },
  { code: 'archive-without-score', entries: [] },
  { code: 'limit-exceeded', what: 'depth', limit: 1, found: 2 },
  { code: 'bad-value', what: 'x', value: 'y', line: 1, column: 1 },
  { code: 'unsupported', feature: 'x', advice: 'y' },
  { code: 'no-parts' },
  { code: 'harp-not-found', parts: [] },
  { code: 'unknown-part', option: 'part', wanted: 'x', parts: [] },
  { code: 'no-notes', part: 'x', parts: [] },
  { code: 'choose-tune', tunes: [] },
  { code: 'unknown-tune', wanted: 'x', tunes: [] },
  { code: 'unknown-movement', wanted: 'x', movements: [] },
  { code: 'bad-tune', tune: '1', line: 1 },
  { code: 'no-music', tune: null },
  { code: 'layout-failed' },
  { code: 'page-out-of-range', page: 2, pageCount: 1 },
  { code: 'busy', retryAfterSeconds: 5 },
  { code: 'timed-out', limitSeconds: 1 },
  { code: 'cancelled' },
];

describe('every problem', () => {
  it.each(RENDERED.map((problem) => [problem.code, problem] as const))(
    'of a score: %s is as described',
    async (code, problem) => {
      const failing = serviceOf({ annotate: async () => ({ ok: false, problem }) });
      const response = await post('/v1/annotate', failing);
      expect(response.body.type).toBe(`urn:tringle:problem:${code}`);
      expect(response.headers.etag).toBeUndefined();
    },
  );

  it('of a request is as described', async () => {
    const send = (type: string) => request(app).post('/v1/annotate').set('Content-Type', type);
    const answers = [
      call('post', '/v1/annotate', send('text/plain').send('x')),
      call('post', '/v1/annotate', send(XML).set('Content-Encoding', 'br').send('x')),
      call('post', '/v1/annotate', send(XML).send('x'.repeat(100_001))),
      call('post', '/v1/annotate', send('multipart/form-data; boundary=b').send('--b--\r\n')),
      call('post', '/v1/annotate', send(XML).set('Accept', 'text/html').send(SCORE)),
      call('get', '/healthz', request(app).get('/healthz').set('Accept', 'x')),
      post('/v1/annotate?spelling=wild'),
      post('/v1/annotate?spel=wild'),
      get('/v1/glissandi'),
    ];
    const statuses = (await Promise.all(answers)).map(({ status }) => status);
    expect(statuses).toEqual([415, 415, 413, 400, 406, 200, 400, 400, 400]);
  });

  it('of a service that holds too many uploads is that it is busy', async () => {
    const full = serviceOf({ uploads: createUploadBudget(10) });
    expect((await post('/v1/plan', full)).body.type).toBe('urn:tringle:problem:busy');
  });

  it('of a full store is that there is no room', async () => {
    const parts = serviceOf({
      jobs: {
        submit: async () => ({ ok: false, problem: { code: 'storage-full' } }),
        find: async () => null,
        readResult: async () => null,
        cancel: async () => false,
        count: async () => ({ waiting: 0, working: 0 }),
        isReady: async () => true,
        close: async () => {},
      },
    });
    expect((await post('/v1/jobs', parts)).status).toBe(507);
  });

  it('of a page of another origin is that it may not', async () => {
    const asked = request(app).post('/v1/plan').set({ 'Content-Type': XML, 'Sec-Fetch-Site': 'cross-site' });
    expect((await call('post', '/v1/plan', asked.send(SCORE))).status).toBe(403);
  });

  it('of a job that took too long is told as that of its score', async () => {
    const file = failedFile('a.xml', { code: 'job-timed-out', limitSeconds: 1800 });
    const parts = serviceOf({
      jobs: {
        submit: async () => ({ ok: true, value: '1' }),
        find: async (id) => ({ id, state: 'done', createdAt: 0, expiresAt: null, files: [file] }),
        readResult: async () => null,
        cancel: async () => false,
        count: async () => ({ waiting: 0, working: 0 }),
        isReady: async () => true,
        close: async () => {},
      },
    });
    expect((await get('/v1/jobs/1/result', parts)).status).toBe(504);
  });

  it('of the code itself is told without anything of it', async () => {
    const failing = serviceOf({
      annotate: async () => {
        throw new Error('secret');
      },
    });
    const response = await post('/v1/annotate', failing);
    expect(response.status).toBe(500);
    expect(response.text).not.toContain('secret');
  });

  it('of an address or a method is told by name', async () => {
    const missing = await request(app).get('/nothing');
    expect(missing.status).toBe(404);
    seen.problems.add(missing.body.type.split(':').at(-1));
    const wrong = await request(app).put('/v1/annotate');
    expect(wrong.status).toBe(405);
    seen.problems.add(wrong.body.type.split(':').at(-1));
  });
});

describe('the tests above', () => {
  /** These come from below the app: see the tests of connections and of the running service. */
  const BELOW: readonly AnyProblemCode[] = ['bad-request', 'request-timeout', 'expectation-failed'];

  it('exercise every endpoint', () => {
    const all = ENDPOINTS.map(({ method, path }) => `${method} ${path}`);
    expect([...seen.endpoints].sort()).toEqual(all.sort());
  });

  it('exercise every option', () => {
    const all = ENDPOINTS.flatMap(({ method, path, options }) =>
      (options === null ? [] : nameOptions(options)).map(({ name }) => `${method} ${path} ${name}`),
    );
    expect(all.filter((option) => !seen.options.has(option))).toEqual([]);
  });

  it('exercise every problem', () => {
    const all = Object.keys(PROBLEM_CLASSES).filter((code) => !BELOW.includes(code as AnyProblemCode));
    expect(all.filter((code) => !seen.problems.has(code))).toEqual([]);
  });
});

import request from 'supertest';
import { describe, expect, it } from 'vitest';
import type { Annotation } from '../../render/annotation.ts';
import { JSON_LIMITS } from '../../server/api/requests/json-limits.ts';
import type { AnyProblem, Outcome } from '../../server/service-problem.ts';
import type { AnnotateJob } from '../../server/threads/job.ts';
import { sampleAnnotation } from './annotation-sample.ts';
import { annotating, fakeService } from './fake-service.ts';

const LIMIT = 2_000;
const SCORE = '<score-partwise/>';
const XML = 'application/vnd.recordare.musicxml+xml';

/** The app over a renderer that answers with `answer`; what the renderer was asked is kept. */
const setUp = (answer: (job: AnnotateJob) => Outcome<Annotation> | Promise<Outcome<Annotation>>) => {
  const jobs: AnnotateJob[] = [];
  const annotate = annotating(async (job) => {
    jobs.push(job);
    return answer(job);
  });
  return { ...fakeService({ annotate, uploadLimitBytes: LIMIT }), jobs };
};

const PAGES = ['one', 'two', 'three'].map((name) => `<svg id="${name}"/>`);

const threePages = () =>
  setUp(({ format: wish }) => ({
    ok: true,
    value: sampleAnnotation({
      pages: wish.kind === 'report' && !wish.withPages ? [] : PAGES,
      pdf: wish.kind === 'pdf' ? new TextEncoder().encode('%PDF-') : null,
    }),
  }));

const refusing = (problem: AnyProblem) => setUp(() => ({ ok: false, problem }));

const send = (app: ReturnType<typeof setUp>['app'], query = '') =>
  request(app).post(`/v1/annotate${query}`).set('Content-Type', XML);

describe('the form of the answer', () => {
  it('is the PDF where the client has no wish', async () => {
    const { app, jobs } = threePages();
    const response = await send(app).send(SCORE);
    expect(response.status).toBe(200);
    expect(response.headers['content-type']).toBe('application/pdf');
    expect(response.body.toString()).toBe('%PDF-');
    expect(response.headers['tringle-page-count']).toBe('3');
    expect(response.headers.vary).toContain('Accept');
    expect(jobs[0]?.format).toEqual({ kind: 'pdf' });
    expect(Buffer.from(jobs[0]!.bytes).toString()).toBe(SCORE);
  });

  it.each([
    ['image/*', 'image/svg+xml'],
    ['application/pdf;q=0.5, application/json', 'application/json'],
    ['text/html, application/xhtml+xml, */*;q=0.8', 'application/pdf'],
    ['image/svg+xml;q=0, */*', 'application/pdf'],
  ])('for Accept: %s is %s', async (accept, type) => {
    const response = await send(threePages().app).set('Accept', accept).send(SCORE);
    expect(response.status).toBe(200);
    expect(response.headers['content-type']).toBe(type);
  });

  it('is refused with what there is, before the score is annotated', async () => {
    const { app, jobs } = threePages();
    const response = await send(app).set('Accept', 'text/html').send(SCORE);
    expect(response.status).toBe(406);
    expect(response.headers['content-type']).toBe('application/problem+json');
    expect(response.headers.vary).toContain('Accept');
    expect(response.body.offered).toEqual([
      'application/pdf',
      'image/svg+xml',
      'image/png',
      'application/json',
      'text/event-stream',
      'application/vnd.recordare.musicxml+xml',
      'application/vnd.recordare.musicxml',
      'application/mei+xml',
    ]);
    expect(jobs).toEqual([]);
  });
});

describe('an SVG page', () => {
  const page = (query: string) => send(threePages().app, query).set('Accept', 'image/svg+xml').send(SCORE);

  it('is the first one where none is named, and links to the next and the last', async () => {
    const response = await page('?part=Harp%20I');
    expect(response.body.toString()).toBe(PAGES[0]);
    expect(response.headers['tringle-page-count']).toBe('3');
    expect(response.headers.link).toBe(
      '</v1/annotate?part=Harp+I&page=1>; rel="first", </v1/annotate?part=Harp+I&page=2>; rel="next", </v1/annotate?part=Harp+I&page=3>; rel="last"',
    );
  });

  it('in the middle links both ways', async () => {
    const response = await page('?page=2');
    expect(response.body.toString()).toBe(PAGES[1]);
    expect(response.headers.link).toContain('</v1/annotate?page=1>; rel="prev"');
    expect(response.headers.link).toContain('</v1/annotate?page=3>; rel="next"');
  });

  it('at the end has no next', async () => {
    const response = await page('?page=3');
    expect(response.body.toString()).toBe(PAGES[2]);
    expect(response.headers.link).not.toContain('next');
  });

  it('past the end is a 404 that tells how many there are', async () => {
    const response = await page('?page=4');
    expect(response.status).toBe(404);
    expect(response.body).toMatchObject({
      type: 'urn:tringle:problem:page-out-of-range',
      page: 4,
      pageCount: 3,
    });
    expect(response.headers['content-type']).toBe('application/problem+json');
  });

  it.each(['0', '-1', '1.5', 'two', '', '9999999'])('cannot have the number “%s”', async (number) => {
    const response = await page(`?page=${number}`);
    expect(response.status).toBe(400);
    expect(response.body).toMatchObject({
      type: 'urn:tringle:problem:bad-option',
      option: 'page',
      value: number,
    });
  });
});

describe('a painted page', () => {
  const drawing = '<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="5mm"/>';
  const painted = () =>
    send(setUp(() => ({ ok: true, value: sampleAnnotation({ pages: [drawing, drawing] }) })).app, '?page=2')
      .set('Accept', 'image/png')
      .send(SCORE);

  it('comes as PNG, with its links', async () => {
    const response = await painted();
    expect(response.headers['content-type']).toBe('image/png');
    expect(response.body.subarray(1, 4).toString()).toBe('PNG');
    expect(response.headers['tringle-page-count']).toBe('2');
    expect(response.headers.link).toContain('rel="prev"');
  });
});

describe('the JSON report', () => {
  it('tells setting, moves and findings in note names, and holds the pages', async () => {
    const response = await send(threePages().app).set('Accept', 'application/json').send(SCORE);
    expect(response.status).toBe(200);
    expect(response.body.setting).toBe('D♮ C♮ B♭ | E♭ F♮ G♮ A♮');
    expect(response.body.moves[0]).toMatchObject({ at: '7/2', bar: '2a', beat: '3', change: 'C♯' });
    expect(response.body.findings[0]).toMatchObject({ severity: 'stop', bar: '2a', beat: '3/2' });
    expect(response.body.pages).toEqual(PAGES);
    expect(response.body.pageCount).toBe(3);
  });

  it('comes without pages, and without layout, where none are wanted', async () => {
    const { app, jobs } = threePages();
    const response = await send(app, '?pages=none').set('Accept', 'application/json').send(SCORE);
    expect(jobs[0]?.format).toEqual({ kind: 'report', withPages: false });
    expect(response.body.pageCount).toBeNull();
    expect(response.body.pages).toEqual([]);
    expect(response.headers['tringle-page-count']).toBeUndefined();
  });
});

describe('the options', () => {
  it('hand the wanted part on as it was written', async () => {
    const { app, jobs } = threePages();
    await send(app, `?part=${encodeURIComponent('Arpa “I” & II')}`).send(SCORE);
    expect(jobs[0]?.choice).toEqual({ part: 'Arpa “I” & II' });
  });

  it('that are not known are refused with the nearest that is', async () => {
    const response = await send(threePages().app, '?prat=P2').send(SCORE);
    expect(response.status).toBe(400);
    expect(response.body).toMatchObject({
      type: 'urn:tringle:problem:unknown-option',
      option: 'prat',
      nearest: 'part',
    });
    expect(response.body.options).toEqual(expect.arrayContaining(['part', 'page', 'spelling', 'paper']));
    expect(response.body.detail).toContain('Did you mean “part”?');
  });

  it.each([
    ['?part=P1&part=P2', 'part', 'given twice'],
    ['?part=', 'part', 'the id or the name of a part'],
    ['?page=2', 'page', 'belongs to image/svg+xml'],
    ['?pages=none', 'pages', 'belongs to application/json'],
    ['?pageOfBar=3', 'pageOfBar', 'belongs to text/event-stream'],
  ])('%s are refused, not passed over', async (query, option, reason) => {
    const { app, jobs } = threePages();
    const response = await send(app, query).send(SCORE);
    expect(response.status).toBe(400);
    expect(response.body.option).toBe(option);
    expect(response.body.detail).toContain(reason);
    expect(jobs).toEqual([]);
  });
});

describe('the upload', () => {
  it.each([
    XML,
    'application/vnd.recordare.musicxml',
    'application/mei+xml',
    'application/xml; charset=utf-8',
    'Text/XML',
    'application/octet-stream',
  ])('may be a body of type %s', async (type) => {
    const { app, jobs } = threePages();
    const response = await request(app).post('/v1/annotate').set('Content-Type', type).send(SCORE);
    expect(response.status).toBe(200);
    expect(Buffer.from(jobs[0]!.bytes).toString()).toBe(SCORE);
  });

  it('may be the one file of a form', async () => {
    const { app, jobs } = threePages();
    const response = await request(app)
      .post('/v1/annotate')
      .attach('score', Buffer.from(SCORE), { filename: 'part.musicxml', contentType: 'text/plain' });
    expect(response.status).toBe(200);
    expect(Buffer.from(jobs[0]!.bytes).toString()).toBe(SCORE);
  });

  it('may come with its options as a file beside it', async () => {
    const { app, jobs } = threePages();
    const send = (options: string) =>
      request(app)
        .post('/v1/annotate')
        .attach('options', Buffer.from(options), { filename: 'o.json', contentType: 'application/json' })
        .attach('score', Buffer.from(SCORE), 'part.musicxml');
    expect((await send('{"density":"changes"}')).status).toBe(200);
    expect(jobs[0]!.choice).toMatchObject({ density: 'changes' });
    const long = await send(' '.repeat(JSON_LIMITS.bytes + 1));
    expect([long.status, long.body.detail]).toEqual([400, expect.stringContaining('too long')]);
  });

  it('is answered for a client that names a character set', async () => {
    const response = await send(threePages().app).set('Accept', 'image/svg+xml; charset=utf-8').send(SCORE);
    expect(response.status).toBe(200);
    expect(response.headers['content-type']).toContain('image/svg+xml');
  });

  it('of no bytes reaches the reader, which says so', async () => {
    const { app, jobs } = refusing({ code: 'empty-input' });
    const response = await send(app).send();
    expect(jobs[0]?.bytes.length).toBe(0);
    expect(response.status).toBe(400);
    expect(response.body.title).toBe('The file is empty');
  });

  it.each(['application/x-www-form-urlencoded', 'text/plain', 'application/json'])(
    'of type %s is refused with the types that are taken',
    async (type) => {
      const response = await request(threePages().app)
        .post('/v1/annotate')
        .set('Content-Type', type)
        .send('{}');
      expect(response.status).toBe(415);
      expect(response.body).toMatchObject({ mediaType: type });
      expect(response.headers.accept).toContain('application/mei+xml');
    },
  );

  it('without a type is refused', async () => {
    const response = await request(threePages().app).post('/v1/annotate');
    expect(response.status).toBe(415);
    expect(response.body.detail).toContain('names no Content-Type');
  });

  it('that is packed for the way is refused', async () => {
    const response = await send(threePages().app).set('Content-Encoding', 'gzip').send(SCORE);
    expect(response.status).toBe(415);
    expect(response.headers['accept-encoding']).toBe('identity');
  });

  it('may be as large as the limit and no larger', async () => {
    const { app, jobs } = threePages();
    expect((await send(app).send('x'.repeat(LIMIT))).status).toBe(200);
    const response = await send(app).send('x'.repeat(LIMIT + 1));
    expect(response.status).toBe(413);
    expect(response.body.limitBytes).toBe(LIMIT);
    expect(jobs.length).toBe(1);
  });

  it('in a form may be as large as the limit and no larger', async () => {
    const { app, jobs } = threePages();
    const attach = (size: number) =>
      request(app).post('/v1/annotate').attach('score', Buffer.alloc(size, 'x'), 'part.xml');
    expect((await attach(LIMIT)).status).toBe(200);
    expect((await attach(LIMIT + 1)).status).toBe(413);
    expect(jobs.map(({ bytes }) => bytes.length)).toEqual([LIMIT]);
  });
});

describe('a form that cannot be used', () => {
  const post = (type: string, body: string) =>
    request(threePages().app).post('/v1/annotate').set('Content-Type', type).send(body);
  const part = (headers: string, content: string) => `--b\r\n${headers}\r\n\r\n${content}\r\n`;
  const FILE = 'Content-Disposition: form-data; name="score"; filename="a.xml"';

  it.each([
    ['has no boundary', 'multipart/form-data', 'x', 'Boundary'],
    ['breaks off', 'multipart/form-data; boundary=b', `--b\r\n${FILE}\r\n\r\nabc`, 'Unexpected end'],
    ['is empty', 'multipart/form-data; boundary=b', '--b--\r\n', 'no file'],
    ['has no parts at all', 'multipart/form-data; boundary=b', 'no form', 'Unexpected end'],
    [
      'has two files',
      'multipart/form-data; boundary=b',
      `${part(FILE, 'a')}${part(FILE, 'b')}--b--\r\n`,
      'more than one file',
    ],
    [
      'has a field',
      'multipart/form-data; boundary=b',
      `${part('Content-Disposition: form-data; name="part"', 'P2')}${part(FILE, 'b')}--b--\r\n`,
      'the field “part” is not a file',
    ],
  ])('since it %s is refused with the reason', async (_what, type, body, reason) => {
    const response = await post(type, body);
    expect(response.status).toBe(400);
    expect(response.headers['content-type']).toBe('application/problem+json');
    expect(response.body.type).toBe('urn:tringle:problem:bad-multipart');
    expect(response.body.detail).toContain(reason);
  });
});

describe('a problem of the score', () => {
  it('has its facts as members, such as the parts to choose from', async () => {
    const parts = [{ id: 'P1', name: 'Flute', staves: 1, notes: 40 }];
    const response = await send(refusing({ code: 'harp-not-found', parts }).app).send(SCORE);
    expect(response.status).toBe(422);
    expect(response.headers['content-type']).toBe('application/problem+json');
    expect(response.body).toEqual({
      type: 'urn:tringle:problem:harp-not-found',
      title: 'No harp was found',
      status: 422,
      detail:
        'No part is named or marked as a harp. Choose the part to use: P1 (Flute, 1 staff). Name it in the request, as in ?part=P1.',
      parts,
    });
  });

  it('of broken XML tells line and column', async () => {
    const problem = { code: 'malformed-xml', message: 'unclosed tag', line: 7, column: 3 } as const;
    const response = await send(refusing(problem).app).send(SCORE);
    expect(response.status).toBe(400);
    expect(response.body).toMatchObject({ line: 7, column: 3 });
  });

  it('too many at once is a 503 that says when to come back', async () => {
    const response = await send(refusing({ code: 'busy', retryAfterSeconds: 5 }).app).send(SCORE);
    expect(response.status).toBe(503);
    expect(response.headers['retry-after']).toBe('5');
  });
});

describe('a bug', () => {
  it('is recorded, and shows nothing of itself to the client', async () => {
    const { app, bugs, logged } = setUp(() => {
      throw new Error('secret path /srv/x.ts');
    });
    const response = await send(app).send(SCORE);
    expect(response.status).toBe(500);
    expect(response.text).not.toContain('secret');
    expect(response.text).not.toContain('.ts');
    expect(bugs()).toEqual([response.body.incident]);
    expect(logged.join('')).toContain('app.test.ts');
    expect(logged.join('')).not.toContain('secret');
  });

  it('in making the answer leaves no trace of the answer', async () => {
    const { app } = setUp(() => ({ ok: true, value: sampleAnnotation({ pdf: null }) }));
    const response = await send(app).send(SCORE);
    expect(response.status).toBe(500);
    expect(response.headers['content-type']).toBe('application/problem+json');
    expect(response.headers['content-disposition']).toBeUndefined();
  });
});

describe('addresses and methods', () => {
  it('the web page stands at the root, with a policy that lets it load its own files only', async () => {
    const response = await request(threePages().app).get('/');
    expect(response.status).toBe(200);
    expect(response.headers['content-type']).toContain('text/html');
    expect(response.headers['content-security-policy']).toContain("script-src 'self'");
  });

  it.each(['/nothing', '/v1', '/v1/annotate/x', '/healthzz', '/%ff'])('%s is not there', async (path) => {
    const response = await request(threePages().app).get(path);
    expect(response.status).toBe(404);
    expect(response.headers['content-type']).toBe('application/problem+json');
    expect(response.body.detail).toContain('/v1/annotate');
  });

  it.each([
    ['get', '/v1/annotate', 'POST, OPTIONS'],
    ['put', '/v1/annotate', 'POST, OPTIONS'],
    ['post', '/healthz', 'GET, HEAD, OPTIONS'],
  ] as const)('%s %s is refused with the methods there are', async (method, path, allow) => {
    const response = await request(threePages().app)[method](path);
    expect(response.status).toBe(405);
    expect(response.headers.allow).toBe(allow);
    expect(response.body.type).toBe('urn:tringle:problem:method-not-allowed');
  });

  it('OPTIONS tells methods and upload types', async () => {
    const response = await request(threePages().app).options('/v1/annotate');
    expect(response.status).toBe(204);
    expect(response.headers.allow).toBe('POST, OPTIONS');
    expect(response.headers['accept-post']).toContain('multipart/form-data');
  });

  it('the health check tells version and pool', async () => {
    const response = await request(threePages().app).get('/healthz');
    expect(response.status).toBe(200);
    expect(response.body.status).toBe('ok');
    expect(response.body.version).toMatch(/^\d+\.\d+\.\d+/);
    expect(response.body.pool).toEqual({ threads: 2, working: 1, waiting: 0, queue: 16 });
  });
});

describe('every answer', () => {
  it.each(['/healthz', '/nothing'])('from %s may load nothing and is no other type', async (path) => {
    const { headers } = await request(threePages().app).get(path);
    expect(headers['content-security-policy']).toContain("default-src 'none'");
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['x-powered-by']).toBeUndefined();
  });

  it('with a PDF names the file by the title, whatever the title holds', async () => {
    const title = 'Étude "No. 1"\r\nSet-Cookie: a=b / 水';
    const { app } = setUp(() => ({
      ok: true,
      value: sampleAnnotation({
        titles: { title, subtitle: '', composer: '', arranger: '', rights: '' },
        pdf: new Uint8Array([37]),
      }),
    }));
    const { headers } = await send(app).send(SCORE);
    expect(headers['set-cookie']).toBeUndefined();
    expect(headers['content-disposition']).toBe(
      `inline; filename="Etude No. 1 Set-Cookie a=b _.pdf"; filename*=UTF-8''%C3%89tude%20No.%201%20Set-Cookie%20a%3Db%20%E6%B0%B4.pdf`,
    );
  });
});

import type { Server } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import supertest from 'supertest';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createHttpServer } from '../../../server/http/http-server.ts';
import { fakeService } from '../fake-service.ts';

const { app } = fakeService({
  annotate: async () => ({
    ok: true,
    value: { headers: { 'Content-Type': 'application/pdf' }, body: new Uint8Array([37]) },
  }),
});

let server: Server;
beforeAll(async () => {
  server = createHttpServer(app, 5);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});
afterAll(() => {
  server.close();
  server.closeAllConnections();
});

/** What is answered to text that is sent as it stands. */
const answerTo = (text: string): Promise<string> =>
  new Promise((resolve, reject) => {
    let all = '';
    const socket = connect((server.address() as AddressInfo).port, '127.0.0.1', () => socket.write(text));
    socket.on('data', (data) => {
      all += String(data);
    });
    socket.once('error', reject);
    socket.once('close', () => resolve(all));
  });

describe('a request that is none as it should be', () => {
  it.each([
    ['has no Host', 'GET /healthz HTTP/1.1\r\nConnection: close\r\n\r\n', 400, 'bad-request'],
    [
      'expects what nobody can do',
      'POST /v1/plan HTTP/1.1\r\nHost: 127.0.0.1\r\nExpect: the moon\r\nConnection: close\r\n\r\n',
      417,
      'expectation-failed',
    ],
    [
      'wants a tunnel',
      'CONNECT example.org:443 HTTP/1.1\r\nHost: example.org:443\r\n\r\n',
      405,
      'method-not-allowed',
    ],
    ['is no HTTP', 'HARP / 1\r\n\r\n', 400, 'bad-request'],
    [
      'has two lengths',
      'GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n',
      400,
      'bad-request',
    ],
  ])('and %s is told so as every problem is', async (_what, text, status, code) => {
    const answer = await answerTo(text);
    const [head = '', body = ''] = answer.split('\r\n\r\n');
    expect(head).toMatch(new RegExp(`^HTTP/1.1 ${status} `));
    expect(head).toMatch(/content-type: application\/problem\+json/i);
    const json = body.slice(body.indexOf('{'), body.lastIndexOf('}') + 1);
    expect(JSON.parse(json)).toMatchObject({ status, type: `urn:tringle:problem:${code}` });
  });

  it.each(['put', 'post', 'delete', 'patch'] as const)(
    'and is a %s of the page is told what there is',
    async (method) => {
      const response = await supertest(app)[method]('/');
      expect(response.status).toBe(405);
      expect(response.headers.allow).toBe('GET, HEAD, OPTIONS');
      expect(response.type).toBe('application/problem+json');
    },
  );

  it('may name no host where it is of HTTP 1.0', async () => {
    expect(await answerTo('GET /healthz HTTP/1.0\r\n\r\n')).toMatch(/^HTTP\/1.1 200 /);
  });
});

describe('a page', () => {
  const ask = (fields: Readonly<Record<string, string>>) =>
    supertest(server)
      .post('/v1/annotate')
      .set({ 'Content-Type': 'application/xml', ...fields })
      .send('<a/>');

  it.each([
    ['of another site', { 'Sec-Fetch-Site': 'cross-site', Origin: 'https://elsewhere.example' }],
    ['of another port of this machine', { 'Sec-Fetch-Site': 'same-site', Origin: 'http://127.0.0.1:1' }],
    ['in an old browser', { Origin: 'https://elsewhere.example' }],
    ['in a frame without an origin', { Origin: 'null' }],
    [
      'whose server has the name lead to this machine',
      { 'Sec-Fetch-Site': 'same-origin', Host: 'elsewhere.example', Origin: 'http://elsewhere.example' },
    ],
  ])('%s may not use a service of this machine', async (_what, fields) => {
    const response = await ask(fields);
    expect(response.status).toBe(403);
    expect(response.body).toMatchObject({ type: 'urn:tringle:problem:foreign-origin' });
  });

  it('of another site may not ask for settings or for the results of jobs either', async () => {
    for (const path of ['/v1/glissandi?sound=C', '/v1/jobs/1', '/v1/jobs/1/result']) {
      const response = await supertest(server).get(path).set('Sec-Fetch-Site', 'cross-site');
      expect(response.status).toBe(403);
    }
  });

  it.each([
    ['of the service itself', { 'Sec-Fetch-Site': 'same-origin', Origin: 'http://127.0.0.1' }],
    ['that the user opens', { 'Sec-Fetch-Site': 'none' }],
    ['by the name of this machine', { Origin: 'http://localhost:99', Host: 'localhost:99' }],
  ])('%s may', async (_what, fields) => {
    expect((await ask(fields)).status).toBe(200);
  });

  it('of any name may where a proxy that is trusted stands in front', async () => {
    const behind = fakeService({
      annotate: async () => ({
        ok: true,
        value: { headers: { 'Content-Type': 'application/pdf' }, body: new Uint8Array([37]) },
      }),
      access: { apiKeys: [], ratePerMinute: 0, trustedProxies: 1 },
    });
    const response = await supertest(behind.app)
      .post('/v1/annotate')
      .set({
        'Content-Type': 'application/xml',
        'X-Forwarded-Host': 'harp.example',
        Origin: 'https://harp.example',
      })
      .send('<a/>');
    expect(response.status).toBe(200);
  });
});

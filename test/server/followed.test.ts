import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import supertest from 'supertest';
import { afterEach, describe, expect, it } from 'vitest';
import { type FollowedScore, followScore } from '../../server/followed-score.ts';
import { fakeService } from './fake-service.ts';

const NOTHING_CHOSEN = {
  part: undefined,
  tune: undefined,
  movement: undefined,
  instrument: undefined,
  decided: undefined,
};

const following = (): FollowedScore => followScore('folder/part.mei', 'part.mei', NOTHING_CHOSEN);

const appWith = (followed: FollowedScore) =>
  fakeService({
    annotate: async () => ({ ok: false, problem: { code: 'bad-request', reason: 'nothing is drawn here' } }),
    followed,
  }).app;

const fileWith = (text: string) => ({ fileName: 'part.mei', bytes: Buffer.from(text) });

let server: Server | null = null;
afterEach(() => {
  server?.closeAllConnections();
  server?.close();
  server = null;
});

/** Listens as the page does. @returns what has been told so far */
const listen = async (
  followed: FollowedScore,
): Promise<{ readonly text: () => string; readonly ended: Promise<void> }> => {
  server = createServer(appWith(followed)).listen(0, '127.0.0.1');
  await new Promise((resolve) => server!.once('listening', resolve));
  const { port } = server.address() as AddressInfo;
  const answer = await fetch(`http://127.0.0.1:${port}/followed/${followed.token}/saves`);
  expect(answer.headers.get('Content-Type')).toMatch(/^text\/event-stream/);
  let text = '';
  const read = async (): Promise<void> => {
    for await (const piece of answer.body!.pipeThrough(new TextDecoderStream())) text += piece;
  };
  // Where a claim ends before the events do, the connection is cut.
  const ended = read().catch(() => {});
  return { text: () => text, ended };
};

describe('a file that the command follows', () => {
  it('is told with each save, with a loss and at the end, and the bytes of the last save are there', async () => {
    const followed = following();
    followed.save(fileWith('first'));
    const { text, ended } = await listen(followed);
    await expect.poll(text).toMatch(/^event: saved\ndata: {"id":"[\w-]{16}","fileName":"part.mei"}\n\n$/);
    followed.lose('it is a folder');
    await expect.poll(text).toMatch(/event: gone\ndata: {"kind":"gone","sentence":"it is a folder"}\n\n$/);
    followed.save(fileWith('second'));
    await expect.poll(() => text().match(/event: saved/g)?.length).toBe(2);
    const file = await supertest(appWith(followed)).get(`/followed/${followed.token}/file`);
    expect(file.body.toString()).toBe('second');
    expect(file.headers['cache-control']).toBe('no-store');
    followed.end();
    await ended;
    expect(text()).toMatch(/event: end\n/);
  });

  it('whose last state is a loss is told so after the save that still stands', async () => {
    const followed = following();
    followed.save(fileWith('first'));
    followed.lose('gone');
    const { text } = await listen(followed);
    await expect.poll(text).toMatch(/event: saved\n(?:.*\n)*event: gone\n/);
  });

  it('is known again by its place, whatever it holds, by a name that does not tell the place', () => {
    const { id, token } = following();
    expect(following().id).toBe(id);
    expect(following().token).not.toBe(token);
    expect(followScore('other/part.mei', 'part.mei', NOTHING_CHOSEN).id).not.toBe(id);
    expect(token).toMatch(/^[\w-]{32}$/);
  });

  it.each(['saves', 'file'])('is not given to who cannot name it: %s', async (name) => {
    const followed = following();
    followed.save(fileWith('first'));
    const app = appWith(followed);
    for (const token of ['x', `${followed.token}x`, followed.token.slice(1), '%00', 'constructor']) {
      const { status, body } = await supertest(app).get(`/followed/${token}/${name}`);
      expect(status).toBe(404);
      expect(body.type).toBe('urn:tringle:problem:not-found');
    }
  });

  it.each([
    ['another site', { Origin: 'https://example.org' }],
    ['another site, as the browser says', { 'Sec-Fetch-Site': 'cross-site' }],
    [
      'a name of its own that was pointed at this machine',
      { Host: 'example.org', 'Sec-Fetch-Site': 'same-origin' },
    ],
  ])('is not given to %s, token or no', async (_who, headers) => {
    const followed = following();
    followed.save(fileWith('first'));
    const asked = supertest(appWith(followed)).get(`/followed/${followed.token}/file`);
    const { status, body } = await asked.set(headers);
    expect(status).toBe(403);
    expect(body.type).toBe('urn:tringle:problem:foreign-origin');
  });

  it('is only read', async () => {
    const followed = following();
    followed.save(fileWith('first'));
    const app = appWith(followed);
    expect((await supertest(app).post(`/followed/${followed.token}/file`)).status).toBe(405);
    expect((await supertest(app).head(`/followed/${followed.token}/saves`)).status).toBe(200);
    expect((await supertest(app).get(`/followed/${followed.token}`)).status).toBe(404);
  });

  it('is nowhere in a service that follows none', async () => {
    const { app } = fakeService({
      annotate: async () => ({
        ok: false,
        problem: { code: 'bad-request', reason: 'nothing is drawn here' },
      }),
    });
    expect((await supertest(app).get(`/followed/${following().token}/file`)).status).toBe(404);
  });
});

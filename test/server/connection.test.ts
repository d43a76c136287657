import { createServer, type Server } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import type { AnnotateJob, Perform } from '../../server/threads/job.ts';
import { fakeService } from './fake-service.ts';

type Annotate = Perform<AnnotateJob>;

const LIMIT = 100_000;
const servers: Server[] = [];

const start = async (annotate: Annotate): Promise<{ port: number; bugs: () => readonly string[] }> => {
  const { app, bugs } = fakeService({ annotate, uploadLimitBytes: LIMIT });
  const server = createServer(app);
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { port: (server.address() as AddressInfo).port, bugs };
};

afterEach(() => {
  for (const server of servers.splice(0)) {
    server.close();
    server.closeAllConnections();
  }
});

const dial = (port: number): Promise<Socket> =>
  new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket));
    socket.once('error', reject);
  });

const signalOnce = (): { readonly promise: Promise<void>; readonly resolve: () => void } => {
  let resolve = (): void => {};
  const promise = new Promise<void>((settle) => {
    resolve = settle;
  });
  return { promise, resolve: () => resolve() };
};

const head = (fields: string): string =>
  `POST /v1/annotate HTTP/1.1\r\nHost: harp\r\nContent-Type: application/xml\r\n${fields}\r\n\r\n`;

const firstBytes = (socket: Socket): Promise<string> =>
  new Promise((resolve) => socket.once('data', (data) => resolve(data.toString())));

const answering: Annotate = async () => ({
  ok: true,
  value: { headers: { 'Content-Type': 'application/pdf' }, body: new Uint8Array([37]) },
});

const healthy = async (port: number): Promise<boolean> =>
  (await fetch(`http://127.0.0.1:${port}/healthz`)).ok;

describe('a client', () => {
  it('that announces too much is told so before it sends it', async () => {
    const { port } = await start(answering);
    const socket = await dial(port);
    socket.write(head(`Content-Length: ${LIMIT + 1}`));
    expect(await firstBytes(socket)).toMatch(/^HTTP\/1\.1 413 /);
    socket.destroy();
  });

  it('that sends without end is told so at the limit, and then cut off', async () => {
    const { port } = await start(answering);
    const socket = await dial(port);
    const answer = firstBytes(socket);
    const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()));
    socket.write(head('Transfer-Encoding: chunked'));
    const chunk = `4000\r\n${'x'.repeat(0x4000)}\r\n`;
    const pump = setInterval(() => socket.write(chunk), 5);
    expect(await answer).toMatch(/^HTTP\/1\.1 413 /);
    socket.on('error', () => {});
    await closed;
    clearInterval(pump);
    expect(await healthy(port)).toBe(true);
  }, 15_000);

  it('that sends too large a form in one go can go on with the same connection', async () => {
    const { port } = await start(answering);
    const socket = await dial(port);
    const answer = firstBytes(socket);
    const form = [
      '--b',
      'Content-Disposition: form-data; name="score"; filename="a.xml"',
      '',
      'x'.repeat(20 * LIMIT),
      '--b--',
      '',
    ].join('\r\n');
    const fields = 'Content-Type: multipart/form-data; boundary=b\r\nTransfer-Encoding: chunked';
    socket.write(`POST /v1/annotate HTTP/1.1\r\nHost: harp\r\n${fields}\r\n\r\n`);
    socket.write(`${form.length.toString(16)}\r\n${form}\r\n0\r\n\r\n`);
    expect(await answer).toMatch(/^HTTP\/1\.1 413 /);
    const next = firstBytes(socket);
    socket.write(`${head('Content-Length: 3')}abc`);
    expect(await next).toMatch(/^HTTP\/1\.1 200 /);
    socket.destroy();
  });

  it('that goes away while it sends leaves no bug and no job behind', async () => {
    let jobs = 0;
    const { port, bugs } = await start(async (job, signal) => {
      jobs += 1;
      return answering(job, signal);
    });
    const socket = await dial(port);
    socket.write(`${head('Content-Length: 1000')}abc`);
    await new Promise((resolve) => setTimeout(resolve, 50));
    socket.destroy();
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(await healthy(port)).toBe(true);
    expect({ jobs, bugs: bugs() }).toEqual({ jobs: 0, bugs: [] });
  });

  it('that goes away while its score is worked on stops the work', async () => {
    const started = signalOnce();
    const stopped = signalOnce();
    const { port, bugs } = await start(
      (_job, signal) =>
        new Promise((resolve) => {
          started.resolve();
          signal.addEventListener('abort', () => {
            stopped.resolve();
            resolve({ ok: false, problem: { code: 'cancelled' } });
          });
        }),
    );
    const socket = await dial(port);
    socket.write(`${head('Content-Length: 3')}abc`);
    await started.promise;
    socket.destroy();
    await stopped.promise;
    expect(await healthy(port)).toBe(true);
    expect(bugs()).toEqual([]);
  });

  it('that gets its answer in full does not count as gone', async () => {
    let aborted = false;
    const { port } = await start(async (job, signal) => {
      signal.addEventListener('abort', () => {
        aborted = true;
      });
      return answering(job, signal);
    });
    const response = await fetch(`http://127.0.0.1:${port}/v1/annotate`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/xml' },
      body: 'abc',
    });
    expect(new Uint8Array(await response.arrayBuffer())).toEqual(new Uint8Array([37]));
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(aborted).toBe(false);
  });
});

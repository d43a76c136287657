import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const DEMO_PATH = fileURLToPath(new URL('../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url));

export const DEMO = readFileSync(DEMO_PATH);

/** The service in a process of its own, from the built files: `npm test` builds them first. */
export interface RunningService {
  readonly process: ChildProcess;
  readonly url: string;
  /** Settles with the exit code; null where a signal ended it. */
  readonly ended: Promise<number | null>;
  readonly log: () => string;
}

const MAIN = fileURLToPath(new URL('../../dist/server/main.js', import.meta.url));

export const startService = async (
  environment: Readonly<Record<string, string>> = {},
): Promise<RunningService> => {
  const env = { PATH: process.env.PATH, PORT: '0', HOST: '127.0.0.1', ...environment };
  const child = spawn(process.execPath, [MAIN], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  let log = '';
  child.stderr.on('data', (data) => {
    log += String(data);
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const line = await new Promise<string>((resolve, reject) => {
    child.stdout.once('data', (data) => resolve(String(data)));
    child.once('exit', () => reject(new Error(`the service ended: ${log}`)));
  });
  const url = /http:\S+/.exec(line)?.[0];
  if (url === undefined) throw new Error(`no address in “${line}”`);
  return { process: child, url, ended, log: () => log };
};

export const send = (url: string, path: string, accept: string, body: Uint8Array = DEMO): Promise<Response> =>
  fetch(`${url}${path}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/octet-stream', Accept: accept },
    body: new Uint8Array(body),
  });

export const measure = async (url: string, name: string): Promise<number> => {
  const text = await (await fetch(`${url}/metrics`)).text();
  const line = text.split('\n').find((each) => each.startsWith(name));
  return line === undefined ? Number.NaN : Number(line.split(' ').at(-1));
};

import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { strToU8 } from 'fflate';
import { buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';

/** Two bars with a change between them: what is claimed of the service is true of any score, and this one costs least to draw. */
export const SCORE: Uint8Array<ArrayBuffer> = strToU8(buildHarp(note('F5', 4), note('F#5', 4)));

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

export const send = (
  url: string,
  path: string,
  accept: string,
  body: Uint8Array = SCORE,
): Promise<Response> =>
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

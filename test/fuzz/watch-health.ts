import { spawn } from 'node:child_process';

/** In a process of its own, since this one is held up by the files that it changes. */
const WATCHER = `
const taken = [];
let going = true;
process.stdin.on('end', () => { going = false; }).resume();
const pass = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
while (going) {
  const since = performance.now();
  await (await fetch(process.argv[1])).text();
  taken.push(performance.now() - since);
  await pass(50);
}
process.stdout.write(JSON.stringify(taken));
`;

/** Asks for the health of a service again and again. @returns what ends it and gives the milliseconds that each answer took */
export const watchHealth = (url: string): (() => Promise<readonly number[]>) => {
  const watcher = spawn(process.execPath, ['--input-type=module', '-e', WATCHER, `${url}/healthz`], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let text = '';
  watcher.stdout.on('data', (data) => {
    text += String(data);
  });
  const ended = new Promise<void>((resolve) => watcher.once('close', () => resolve()));
  return async () => {
    watcher.stdin.end();
    await ended;
    return JSON.parse(text) as number[];
  };
};

/** Median, the 99th of a hundred and the worst, for a closing line; the first is left out: it opens the connection. */
export const tellHealth = ([, ...taken]: readonly number[]): string => {
  const sorted = [...taken].sort((a, b) => a - b);
  const at = (share: number): number =>
    sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
  return `${sorted.length} health checks: ${at(0.5).toFixed(1)} ms, p99 ${at(0.99).toFixed(1)} ms, worst ${at(1).toFixed(1)} ms, over 100 ms ${sorted.filter((each) => each > 100).length}`;
};

import type { ChildProcess } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';

/** Milliseconds of the quickest of several runs: the one least disturbed by the rest of the machine. */
export const quickest = (runs: number, work: () => unknown): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
};

/** The middle one; of an even number the higher of the two. */
export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1]!;

/**
 * Milliseconds of processor time of the middle one of several runs, after one that is not counted: what a warm process
 * needs, whatever else the machine has to do.
 */
export const warmTime = (runs: number, work: () => unknown): number => {
  work();
  return median(Array.from({ length: runs }, () => processorTime(work)));
};

/** Milliseconds of processor time of one run. */
export const processorTime = (work: () => unknown): number => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};

/** Milliseconds of processor time that the threads of another process have had so far; Linux alone tells them so finely. */
export const processorTimeOf = ({ pid }: ChildProcess): number => {
  const threads = `/proc/${pid}/task`;
  const nanoseconds = readdirSync(threads).map((thread) =>
    Number(readFileSync(`${threads}/${thread}/schedstat`, 'utf8').split(' ')[0]),
  );
  return nanoseconds.reduce((sum, each) => sum + each, 0) / 1e6;
};

export const milliseconds = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} ms`;

import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { HOW, IN_NODE, NEEDS_MORE } from './vitest.config.ts';

/** The claims that need only the sources and Node. */
export default defineConfig({
  test: {
    ...HOW,
    ...IN_NODE,
    exclude: [...IN_NODE.exclude, ...NEEDS_MORE],
    // None of them waits, and each process more has the sources to read and a layout engine to start.
    maxWorkers: availableParallelism(),
  },
});

import { defineConfig } from 'vitest/config';
import { ClosingLineReporter } from './test/closing-line-reporter.ts';

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    setupFiles: ['test/property-seed.ts'],
    // Layout of a real score takes seconds on a busy machine of two cores.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // What a page shows is waited for as long, and no longer, on such a machine.
    expect: { poll: { timeout: 10_000 } },
    reporters: ['default', new ClosingLineReporter()],
  },
});

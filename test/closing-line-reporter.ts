import type { Reporter, TestModule } from 'vitest/node';

interface Count {
  passed: number;
  failed: number;
  skipped: number;
}

const countTests = (modules: readonly TestModule[], strayErrors: number): Count => {
  const count: Count = { passed: 0, failed: strayErrors, skipped: 0 };
  for (const module of modules) {
    // A file that cannot be loaded, or a hook that fails, is a failure though no test was run.
    count.failed += module.errors().length;
    for (const suite of module.children.allSuites()) count.failed += suite.errors().length;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      // A test that never came to an end was in a run that broke off.
      if (state === 'pending') count.failed += 1;
      else count[state] += 1;
    }
  }
  return count;
};

/** The tests that failed once and passed when tried again: whoever reads of them knows that something is not steady. */
const unsteadyTests = (modules: readonly TestModule[]): string[] =>
  modules.flatMap(({ children }) =>
    [...children.allTests()]
      .filter((test) => test.diagnostic()?.flaky === true)
      .map(({ fullName }) => fullName),
  );

/** Ends a run with one plain line, so that a machine can tell how many tests ran: `12 passed, 0 failed, 1 skipped`. */
export class ClosingLineReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], strayErrors: readonly unknown[]): void {
    const { passed, failed, skipped } = countTests(modules, strayErrors.length);
    for (const name of unsteadyTests(modules)) process.stdout.write(`\npassed when tried again: ${name}\n`);
    process.stdout.write(`\n${passed} passed, ${failed} failed, ${skipped} skipped\n`);
  }
}

import { availableParallelism } from 'node:os';
import { configDefaults, defineConfig } from 'vitest/config';
import { ClosingLineReporter } from './test/closing-line-reporter.ts';
import { longestFirst } from './test/longest-first.ts';
import { isThorough } from './test/thorough.ts';

/** What `npm run test:quick` leaves out: each needs more than the sources and Node, or takes many seconds. */
export const NEEDS_MORE = [
  // Programs that look at PDF.
  'test/render/pages/pdf-picture.test.ts',
  // Real scores.
  'test/corpus/**/*.test.ts',
  'test/engine/levers/played-plans.test.ts',
  'test/engine/score/real-scores.test.ts',
  // Proofs by another way, which tries everything.
  'test/engine/glissando/families.test.ts',
  'test/engine/levers/choose-tuning.test.ts',
  'test/engine/levers/lever-course.test.ts',
  'test/engine/levers/tunings.test.ts',
  'test/engine/pedals/course/foot-course.test.ts',
  'test/engine/pedals/course/integer-programme.test.ts',
  'test/engine/pedals/fix-law.test.ts',
  'test/engine/pedals/offers/hands-and-lengths.test.ts',
  'test/engine/pedals/offers/list-fixes.test.ts',
  'test/engine/pedals/replan.test.ts',
  'test/engine/pedals/spelling/free-spelling.test.ts',
  'test/engine/pedals/spelling/spelling.test.ts',
  'test/engine/settings/settings.test.ts',
  'test/engine/sharing/divide/divide-part.test.ts',
  'test/engine/sharing/divide/solve-division.test.ts',
  // Many faults planted and repaired, or requests of many kinds.
  'test/engine/attempt/judge-attempt.test.ts',
  'test/engine/proof/easy-places.test.ts',
  'test/engine/proof/fixing.test.ts',
  'test/engine/proof/mutations.test.ts',
  'test/engine/score/mei/mei-hostile.test.ts',
  'test/engine/score/musicxml/musicxml-hostile.test.ts',
  'test/engine/score/part-limits.test.ts',
  'test/render/source/lever-repair.test.ts',
  'test/server/api/option-catalogue.test.ts',
  'test/server/app.test.ts',
  // Many whole pages, or threads that are waited for.
  'test/render/attempt/attempt.test.ts',
  'test/render/cues/cues.test.ts',
  'test/render/exercise.test.ts',
  'test/render/handouts/handouts.test.ts',
  'test/render/layout/line-documents.test.ts',
  'test/render/layout/standing.test.ts',
  'test/render/levels.test.ts',
  'test/render/levers/lever-pages.test.ts',
  'test/render/levers/lever-source.test.ts',
  'test/render/pack/class-set.test.ts',
  'test/render/pack/set-sheets.test.ts',
  'test/render/pages/closing-notes.test.ts',
  'test/render/pages/page-by-page.test.ts',
  'test/render/pages/page-places.test.ts',
  'test/render/pages/pages.test.ts',
  'test/render/pages/pdf.test.ts',
  'test/render/pages/same-bytes.test.ts',
  'test/render/part/hidden-signs.test.ts',
  'test/render/part/words-on-pages.test.ts',
  'test/render/proof/proof-pages.test.ts',
  'test/render/source/string-names.test.ts',
  'test/render/study/hard-spots.test.ts',
  'test/render/study/lever-study.test.ts',
  'test/render/study/study-edition.test.ts',
  'test/render/words/languages.test.ts',
  'test/server/api/option-effects.test.ts',
  'test/server/proof-formats.test.ts',
  'test/server/threads/lever-harp.test.ts',
  'test/server/threads/marks-at.test.ts',
  'test/server/threads/pool.test.ts',
  // The built files, in threads and processes of their own; some of these with Redis.
  'test/fuzz/fuzz.test.ts',
  'test/package.test.ts',
  'test/server/jobs/abandoned-folders.test.ts',
  'test/server/api.test.ts',
  'test/server/api/hostile-options.test.ts',
  'test/server/api/refused-requests.test.ts',
  'test/server/connection.test.ts',
  'test/server/jobs/class-set-job.test.ts',
  'test/server/jobs/file-titles.test.ts',
  'test/server/jobs/job-limit.test.ts',
  'test/server/licences.test.ts',
  'test/server/told-pages.test.ts',
  'test/server/followed.test.ts',
  'test/server/command/command-line.test.ts',
  'test/server/command/hostile-input.test.ts',
  'test/server/command/output-reader.test.ts',
  'test/server/class-set.test.ts',
  'test/server/all-harps-over-http.test.ts',
  'test/server/end-to-end.test.ts',
  'test/server/threads/fair-shares.test.ts',
  'test/server/hostile.test.ts',
  'test/server/in-flight.test.ts',
  'test/server/jobs/jobs.test.ts',
  'test/server/resilience.test.ts',
  'test/server/stop.test.ts',
];

/** What runs in Node: all that does not open the page in a browser. */
export const IN_NODE = {
  include: ['test/**/*.test.ts'],
  exclude: [...configDefaults.exclude, 'test/browser/**/*.test.ts'],
};

/** How long a law may take on all its cases, on a busy machine; in milliseconds. */
export const THOROUGH_TIMEOUT_MS = 600_000;

/** How every run goes. */
export const HOW = {
  // Two more than there are cores: many tests wait, for a browser or for a thread that is to be ended, and a core with them.
  maxWorkers: availableParallelism() + 2,
  // Files share what they import, and a layout engine that is warm: starting anew for each took half as long again as the
  // tests themselves. For the same reason all that runs in Node is one project.
  isolate: false,
  reporters: ['default', new ClosingLineReporter()],
  setupFiles: ['test/property-seed.ts'],
  // Layout of a real score takes seconds on a busy machine of two cores.
  testTimeout: isThorough ? THOROUGH_TIMEOUT_MS : 60_000,
  hookTimeout: 60_000,
  // What a page shows is waited for as long, and no longer, on such a machine.
  expect: { poll: { timeout: 10_000 } },
};

export default defineConfig({
  test: {
    ...HOW,
    // A clean checkout knows no times of earlier runs: what the quick run leaves out for its length stands for them.
    sequence: { sequencer: longestFirst(NEEDS_MORE.map((path) => path.replace('**/*.test.ts', ''))) },
    projects: [
      { extends: true, test: { name: 'node', ...IN_NODE } },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['test/browser/**/*.test.ts'],
          globalSetup: ['test/browser/shared-page.ts'],
          // One browser serves all the files, and on a machine under load its answer to one call may fail to come: a test is
          // tried once more, and the closing lines name it.
          retry: 1,
        },
      },
    ],
  },
});

import { strToU8, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { inputKey } from '../../../server/jobs/job.ts';
import { runJob } from '../../../server/jobs/run-job.ts';
import { anyProblemMessage } from '../../../server/service-problem.ts';
import { memoryStore } from '../fake-service.ts';

it('a job that takes longer than a job may keeps what is done, and says why the rest is not', async () => {
  const store = memoryStore();
  const names = ['a', 'b', 'c'];
  const archive = zipSync(Object.fromEntries(names.map((name) => [`${name}.xml`, strToU8(name)])));
  await store.put(inputKey('1'), archive);
  const files = await runJob(
    '1',
    { fileName: 'all.zip', choice: {}, output: 'pdf' },
    {
      annotate: async (_job, signal) => {
        if (store.kept.has('1.0')) {
          await new Promise((resolve) => signal.addEventListener('abort', resolve));
          return { ok: false, problem: { code: 'cancelled' } };
        }
        return { ok: true, value: { headers: { 'Content-Type': 'application/pdf' }, body: strToU8('%PDF') } };
      },
      compute: async () => ({ ok: true, value: { headers: {}, body: strToU8('<a/>') } }),
      store,
      mostScores: 5,
      limitMs: 300,
      recordBug: (bug) => String(bug),
    },
    () => {},
    new AbortController().signal,
  );
  expect(files.map(({ name, state, problem }) => [name, state, problem?.code])).toEqual([
    ['a.xml', 'done', undefined],
    ['b.xml', 'failed', 'job-timed-out'],
    ['c.xml', 'failed', 'job-timed-out'],
  ]);
  expect(anyProblemMessage(files[2]!.problem!)).toContain('several jobs');
});

import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { listTunes } from '../../../engine/score/abc/book/list-tunes.ts';
import { unpackEntry } from '../../../engine/score/file/unzip.ts';
import { checkClassSet } from '../../../server/api/requests/class-set.ts';
import { isClassSet, replyClassSet } from '../../../server/http/reply.ts';
import { inputKey, type JobRequest, resultKey } from '../../../server/jobs/job.ts';
import { type JobWorkers, runJob } from '../../../server/jobs/run-job.ts';
import type { ComputeJob } from '../../../server/threads/job.ts';
import { memoryStore } from '../fake-service.ts';

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** A job over an archive of two scores and one that is refused; what is bound is kept. */
const runSet = async (
  names: Readonly<Record<string, string>>,
  more: Pick<JobRequest, 'tunes' | 'setTitle'> = {},
) => {
  const store = memoryStore();
  store.kept.set(
    inputKey('j'),
    zipSync(Object.fromEntries(Object.entries(names).map(([n, t]) => [n, strToU8(t)]))),
  );
  const bound: Extract<ComputeJob, { kind: 'bind-set' }>[] = [];
  const workers: JobWorkers = {
    store,
    mostScores: 5,
    limitMs: 60_000,
    recordBug: () => 'incident',
    annotate: async ({ bytes, format }) => {
      expect(format).toEqual({ kind: 'piece' });
      if (text(bytes) === 'bad') return { ok: false, problem: { code: 'no-parts' } };
      return { ok: true, value: { headers: { 'Content-Type': 'application/json' }, body: bytes } };
    },
    compute: async (job) => {
      if (job.kind === 'bind-set') {
        bound.push(job);
        return replyClassSet(
          { pdf: strToU8(job.pieces.map(text).join('+')), pageCount: 7 },
          job.pieces.length,
        );
      }
      if (job.kind === 'list-tunes') {
        const listed = listTunes(job.bytes);
        const tunes = listed.ok ? listed.value : null;
        return { ok: true, value: { headers: {}, body: strToU8(JSON.stringify(tunes ?? [])) } };
      }
      if (job.kind !== 'unpack') throw new Error(job.kind);
      const unpacked = unpackEntry(job.bytes, job.entry);
      return unpacked.ok ? { ok: true, value: { headers: {}, body: unpacked.value } } : unpacked;
    },
  };
  const order = {
    fileName: 'class.zip',
    choice: { paper: 'a3', language: 'german' },
    output: 'class-set',
    ...more,
  } as const;
  const files = await runJob('j', order, workers, () => {}, new AbortController().signal);
  return { files, bound, store };
};

describe('a job for a class set', () => {
  it('binds its scores in their order, and names what was refused', async () => {
    const { files, bound, store } = await runSet({ 'a.mei': 'alder', 'b.mei': 'bad', 'c.mei': 'birch' });
    expect(bound).toHaveLength(1);
    expect(bound[0]).toMatchObject({
      refused: [{ name: 'b.mei' }],
      choice: { paper: 'a3', language: 'german' },
    });
    expect(files.map(({ name, state }) => [name, state])).toEqual([
      ['a.mei', 'done'],
      ['b.mei', 'failed'],
      ['c.mei', 'done'],
      ['class set', 'done'],
    ]);
    expect(files.findIndex(({ headers }) => isClassSet(headers))).toBe(3);
    expect(files.slice(0, 3).every(({ headers }) => headers === null)).toBe(true);
    expect(text(store.kept.get(resultKey('j', 3))!)).toBe('alder+birch');
  });

  it('has the tunes of a book that are chosen, in that order, and names what no book has', async () => {
    const book = 'X:1\nT:Sluice\nK:G\nGABc|\n\nX:2\nT:Weir\nK:D\nABcd|\n\nX:3\nT:Lock\nK:C\nCDEF|\n';
    const wanted = { tunes: ['Lock', '1', 'Mill'], setTitle: 'By the water' };
    const { files, bound } = await runSet({ 'tunes.abc': book }, wanted);
    expect(files.map(({ name, tune, state }) => [tune?.title ?? name, state])).toEqual([
      ['Lock', 'done'],
      ['Sluice', 'done'],
      ['Mill', 'failed'],
      ['class set', 'done'],
    ]);
    expect(bound[0]).toMatchObject({ refused: [{ name: 'Mill' }], choice: { title: 'By the water' } });
  });

  it('binds nothing where every score was refused', async () => {
    const { files, bound } = await runSet({ 'a.mei': 'bad', 'b.mei': 'bad' });
    expect(bound).toEqual([]);
    expect(files.map(({ state }) => state)).toEqual(['failed', 'failed']);
  });

  it.each([{ edition: 'card' }, { allHarps: true }] as const)('takes no %j', (choice) => {
    expect(checkClassSet(choice)).toMatchObject({ ok: false, problem: { code: 'bad-option' } });
    expect(checkClassSet({ edition: 'study' }).ok).toBe(true);
  });
});

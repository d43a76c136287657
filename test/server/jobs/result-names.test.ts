import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type JobFile, newJobFile } from '../../../server/jobs/job.ts';
import { hasSingleScore, nameResults } from '../../../server/jobs/result-names.ts';

const done = (name: string, type = 'application/pdf'): JobFile => ({
  ...newJobFile(name, 'waiting'),
  state: 'done',
  headers: { 'Content-Type': type },
});

const namesOf = (...names: readonly string[]) => nameResults(names.map((name) => done(name)));

describe('the results of a job', () => {
  it('stand in the folders of their scores', () => {
    expect(namesOf('a/part.musicxml', 'b/part.musicxml', 'c.v2.mei')).toEqual([
      'a/part.pdf',
      'b/part.pdf',
      'c.v2.pdf',
    ]);
  });

  it('of one name are numbered, in small or capital letters', () => {
    expect(namesOf('a/part.mei', 'a/part.xml', 'A/Part.mxl')).toEqual([
      'a/part.pdf',
      'a/part-2.pdf',
      'A/Part-3.pdf',
    ]);
  });

  it('leave the name of the list of problems free', () => {
    const files = ['problems.xml', 'x.xml'].map((name) => done(name, 'application/json'));
    expect(nameResults(files)).toEqual(['problems-2.json', 'x.json']);
  });

  it.each([
    ['../../etc/x.xml', 'etc/x.pdf'],
    ['/root/x.xml', 'root/x.pdf'],
    ['C:\\music\\x.xml', 'C/music/x.pdf'],
    ['a/./..\\.. /x.xml', 'a/x.pdf'],
    ['a//x.xml', 'a/x.pdf'],
    ['a/...xml', 'a/score.pdf'],
  ])('called %s stay within their folder', (name, path) => {
    expect(namesOf(name, 'other.xml')[0]).toBe(path);
  });

  it('stay within their folder, and apart, whatever the scores are called', () => {
    const part = fc.oneof(fc.string(), fc.constantFrom('..', '.', '', 'a', 'A', 'C:', '\u0000', 'a.xml'));
    const name = fc
      .tuple(fc.array(part, { maxLength: 25 }), fc.constantFrom('/', '\\'))
      .map(([parts, slash]) => parts.join(slash));
    fc.assert(
      fc.property(fc.array(name, { minLength: 2, maxLength: 12 }), (names) => {
        const paths = namesOf(...names).map(String);
        for (const path of paths) {
          expect(path).not.toMatch(/\\|:|^\//);
          for (const each of path.split('/')) expect(['', '.', '..']).not.toContain(each);
        }
        expect(new Set(paths.map((path) => path.toLowerCase())).size).toBe(paths.length);
      }),
    );
  });

  it('differ, though an archive may hold one long name two hundred times', () => {
    const names = Array.from({ length: 200 }, () => `${'a/'.repeat(30_000)}x.xml`);
    const paths = namesOf(...names);
    expect(new Set(paths).size).toBe(200);
    expect(paths[199]).toMatch(/x-200\.pdf$/);
  });

  it('are none of what failed, waits or was passed over, nor named where there is one score', () => {
    const waiting = newJobFile('w.xml', 'waiting');
    const readme = newJobFile('readme.txt', 'skipped');
    expect(nameResults([done('a.xml'), waiting, readme])).toEqual(['a.pdf', null, null]);
    expect(nameResults([done('a.xml'), readme])).toEqual([null, null]);
    expect([
      hasSingleScore([done('a.xml'), readme]),
      hasSingleScore([done('a.xml'), waiting]),
      hasSingleScore([]),
    ]).toEqual([true, false, false]);
  });
});

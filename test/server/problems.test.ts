import { describe, expect, it } from 'vitest';
import { describeProblem, PROBLEM_CLASSES, problemFrom, problemType } from '../../server/problems.ts';
import type { AnyProblem } from '../../server/service-problem.ts';

const noBug = (): string => {
  throw new Error('nothing here is a bug');
};

describe('a problem over HTTP', () => {
  it('is a 4xx or 5xx with a title of its own, and a type that is a URN of its code', () => {
    const classes = Object.entries(PROBLEM_CLASSES);
    for (const [code, { status, title }] of classes) {
      expect(status, code).toBeGreaterThanOrEqual(400);
      expect(status, code).toBeLessThan(600);
      expect(title, code).toMatch(/^[A-Z][^.]+$/);
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
    }
    expect(new Set(classes.map(([, { title }]) => title)).size).toBe(classes.length);
    expect(problemType('no-parts')).toBe('urn:tringle:problem:no-parts');
  });

  it('keeps its own members, whatever its facts are called', () => {
    const problem = { code: 'no-notes', part: 'P1', parts: [], status: 200, type: 'x' } as AnyProblem;
    expect(describeProblem(problem).body).toEqual({
      part: 'P1',
      parts: [],
      status: 422,
      type: 'urn:tringle:problem:no-notes',
      title: 'The part has no notes',
      detail: 'The part P1 has no notes. No other part of the score has any either. Export the score again.',
    });
  });
});

describe('what is thrown at the error middleware', () => {
  it('is the problem it is', () => {
    const problem = { code: 'no-parts' } as const;
    expect(problemFrom(problem, noBug)).toBe(problem);
  });

  it('is a bad request where the HTTP layer blames the client', () => {
    const error = Object.assign(new URIError('Failed to decode'), { status: 400 });
    expect(problemFrom(error, noBug)).toEqual({ code: 'bad-request', reason: 'Failed to decode' });
  });

  it.each([
    new Error('x'),
    Object.assign(new Error('x'), { code: 'no-parts' }),
    Object.assign(new Error('x'), { status: 500 }),
    'text',
    undefined,
    { code: 'toString' },
  ])('is a bug otherwise, and recorded', (thrown) => {
    const recorded: unknown[] = [];
    const problem = problemFrom(thrown, (bug) => {
      recorded.push(bug);
      return 'i1';
    });
    expect(problem).toEqual({ code: 'internal', incident: 'i1' });
    expect(recorded).toEqual([thrown]);
  });
});

import { describe, expect, it } from 'vitest';
import { problemMessage } from '../../../engine/problem.ts';
import { openScore } from '../../../engine/score/open.ts';
import { PART_LIMITS } from '../../../engine/score/part-limits.ts';
import { chordOf, emptyBars, glissandiInOneBar, oneNoteBars } from '../../bench/hostile-scores.ts';

const open = (text: string) => openScore(new TextEncoder().encode(text));

describe('a part that holds more than music does', () => {
  it.each([
    ['100,000 empty bars', 'bars', emptyBars(100_000)],
    ['20,000 bars of one note', 'bars', oneNoteBars(20_000)],
    ['a chord of 50,000 notes', 'notes-in-bar', chordOf(50_000)],
    ['a chord of 201 notes', 'notes-at-once', chordOf(PART_LIMITS['notes-at-once'] + 1)],
    ['8,000 glissandi in one bar', 'notes-in-bar', glissandiInOneBar(8_000)],
  ])('as %s is refused by what is too much', (_what, what, text) => {
    const opened = open(text);
    expect(opened).toMatchObject({ ok: false, problem: { code: 'limit-exceeded', what } });
    if (!opened.ok) expect(problemMessage(opened.problem)).toMatch(/; at most \d+ are accepted\. /);
  });

  it('is read up to the limit', () => {
    expect(open(chordOf(PART_LIMITS['notes-at-once']))).toMatchObject({ ok: true });
    expect(open(emptyBars(PART_LIMITS.bars))).toMatchObject({ ok: true });
  });
});

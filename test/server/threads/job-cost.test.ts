import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { computingCost, planningCost } from '../../../server/threads/job-cost.ts';
import { chordOf, emptyBars, oneNoteBars } from '../../bench/hostile-scores.ts';
import { writeLongPart } from '../../bench/long-part.ts';

const read = (ending: string): Uint8Array =>
  readFileSync(new URL(`../../../server/demo/lanterns-at-the-lock.${ending}`, import.meta.url));

const QUICK_MS = 600;

describe('what a score costs', () => {
  it('is little for an ordinary part, in either format', () => {
    expect(planningCost(read('musicxml'))).toBeLessThan(QUICK_MS);
    expect(planningCost(read('mei'))).toBeLessThan(QUICK_MS);
  });

  it.each([
    ['a thousand bars', oneNoteBars(1_000)],
    ['a chord of 4,000 notes', chordOf(4_000)],
    ['two thousand empty bars', emptyBars(2_000)],
    ['a long part', writeLongPart(1_000)],
  ])('is much for %s, packed or not, and in other encodings', (_what, text) => {
    expect(planningCost(strToU8(text))).toBeGreaterThan(QUICK_MS);
    expect(planningCost(zipSync({ 'a.xml': strToU8(text) }))).toBeGreaterThan(QUICK_MS);
    expect(planningCost(Buffer.from(`\ufeff${text}`, 'utf16le'))).toBeGreaterThan(QUICK_MS);
  });

  it('grows with what is written', () => {
    const costs = [100, 200, 400].map((bars) => planningCost(strToU8(oneNoteBars(bars))));
    expect(costs[1]! / costs[0]!).toBeCloseTo(2, 0);
    expect(costs[2]! / costs[1]!).toBeCloseTo(2, 0);
  });

  it('is more where respellings are tried', () => {
    const bytes = strToU8(oneNoteBars(100));
    expect(
      computingCost({ kind: 'plan', bytes, fileName: '', choice: { spelling: 'suggest' } }),
    ).toBeGreaterThan(5 * computingCost({ kind: 'plan', bytes, fileName: '', choice: {} }));
  });

  it.each(['<measure ', 'note'])('is counted no further than it matters: “%s” millions of times', (word) => {
    const counted = (times: number): number =>
      planningCost(strToU8(word.repeat(times))) - planningCost(strToU8(' '.repeat(times * word.length)));
    expect(counted(10_000)).toBeLessThan(counted(50_000));
    expect(counted(5_000_000)).toBeCloseTo(counted(50_000), 3);
  });
});

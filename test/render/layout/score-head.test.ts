import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { headOf } from '../../../render/layout/early/score-head.ts';

const read = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text), {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const demo = (file: string): string =>
  readFileSync(new URL(`../../../server/demo/${file}`, import.meta.url), 'utf8');

const MUSICXML = demo('lanterns-at-the-lock.musicxml');
const MEI = demo('lanterns-at-the-lock.mei');

/** The file without the bars behind some; nothing else of it is touched. */
const cutOff = (text: string, bars: number): string => {
  let count = 0;
  return text.replace(/<measure[\s>][\s\S]*?<\/measure>/g, (bar) => {
    count += 1;
    return count <= bars ? bar : '';
  });
};

describe('the first bars of a score', () => {
  it.each([
    ['MusicXML', MUSICXML],
    ['MEI', MEI],
  ])('hold what is read of a file of %s that ends there', (_, text) => {
    const score = read(text);
    for (let bars = 4; bars < score.bars.length; bars += 7) {
      const [head, short] = [headOf(score, bars).score, read(cutOff(text, bars))];
      const sounds = ({ notes }: Score) => notes.map(({ bar, onset, pitch }) => ({ bar, onset, pitch }));
      expect(sounds(head)).toEqual(sounds(short));
      expect(head.bars).toHaveLength(bars);
      expect(head.texts.map(({ text: words }) => words)).toEqual(short.texts.map(({ text: words }) => words));
      expect(head.landmarks).toEqual(short.landmarks);
    }
  });

  it('leave out what runs over their end', () => {
    const score = read(MUSICXML);
    for (let bars = 1; bars < score.bars.length; bars += 1) {
      const head = headOf(score, bars).score;
      const ids = new Set(head.notes.map(({ id }) => id));
      for (const { from, to } of head.sweeps) expect([ids.has(from), ids.has(to)]).toEqual([true, true]);
      expect(head.playOrder.every((bar) => bar < bars)).toBe(true);
    }
  });

  it('leave the rest of an MEI file to be cut away', () => {
    const score = read(MEI);
    const { leftOut } = headOf(score, 5);
    const { text } = score.source;
    const left = leftOut.map(({ start, end }) => text.slice(start, end)).join('');
    expect(left.match(/<measure[\s>]/g)).toHaveLength(score.bars.length - 5);
  });
});

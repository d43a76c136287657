import { describe, expect, it } from 'vitest';
import { buildHarp, direction, note, rest } from '../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from './annotate-bytes.ts';
import { annotator } from './shared-annotator.ts';
import { meiScore } from './small-score.ts';
import { annotateFile } from './source/annotate-file.ts';

const MARK = direction('<rehearsal>A</rehearsal>');

/** A setting at the start and at a mark, a change by itself, two feet at once, and words of the file's own. */
const PARTS: Readonly<Record<string, Uint8Array>> = {
  musicxml: new TextEncoder().encode(
    buildHarp(
      direction('<words>dolce</words>') + note('C4', 2) + note('B4', 2),
      note('C#4', 2) + rest(1) + note('Eb4', 1),
      MARK + note('F#4', 2) + note('Bb4', 2),
    ),
  ),
  mei: meiScore({
    bars: ['c4.2 b4.2/c3.1', 'c#4.2 r.4 eb4.4/R', 'f#4.2 bb4.2/R'],
    events: { 0: '<dir staff="1" tstamp="1">dolce</dir>', 2: '<reh staff="1" tstamp="1">A</reh>' },
  }),
};

describe('a file that we annotated before', () => {
  it.each(Object.entries(PARTS))(
    'prints like the file as it was, its markings never doubled (%s)',
    async (_, part) => {
      const once = annotateFile(part, { others: 'keep' });
      if (!once.ok) throw new Error(once.problem.code);
      expect(once.value.bytes.length).toBeGreaterThan(part.length);
      const pagesOf = async (bytes: Uint8Array): Promise<readonly string[]> => {
        const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
        if (!annotated.ok) throw new Error(annotated.problem.code);
        return annotated.value.pages;
      };
      const words = (pages: readonly string[]): string[] =>
        pages.map((page) => page.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' '));
      const again = words(await pagesOf(once.value.bytes));
      expect(again).toEqual(words(await pagesOf(part)));
      expect(again.join(' ')).toContain('dolce');
    },
  );
});

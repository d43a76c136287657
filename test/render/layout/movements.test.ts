import { describe, expect, it } from 'vitest';
import { barline, buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

describe('a movement', () => {
  it('begins a line, even where the line before it holds a single bar', async () => {
    const final = barline('<bar-style>light-heavy</bar-style>');
    const bytes = new TextEncoder().encode(
      buildHarp(note('C4', 4) + final, note('D4', 4), note('E4', 4) + final, note('F4', 4)),
    );
    const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
    if (!annotated.ok) throw new Error(annotated.problem.code);
    const bars = groupsOf(annotated.value.pages[0]!, 'system').map(
      ({ children }) => children.filter(({ attributes }) => attributes.class === 'measure').length,
    );
    expect(bars).toEqual([1, 2, 1]);
  });
});

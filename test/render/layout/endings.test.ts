import { describe, expect, it } from 'vitest';
import { barline, buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

describe('an ending that begins a line', () => {
  it('has its number, and is not shown as one that goes on from the line before', async () => {
    const first = `${barline('<ending number="1" type="start"/>', 'left')}${note('C4', 4)}${barline('<ending number="1" type="stop"/><repeat direction="backward"/>')}`;
    const second = `<print new-system="yes"/>${barline('<ending number="2" type="start"/>', 'left')}${note('D4', 4)}${barline('<ending number="2" type="stop"/>')}`;
    const bytes = new TextEncoder().encode(buildHarp(note('E4', 4), first, second));
    const annotated = await annotateBytes(annotator, bytes, { engraving: { keepBreaks: true } }, 'svg');
    if (!annotated.ok) throw new Error(annotated.problem.code);
    const page = annotated.value.pages[0]!;
    expect(groupsOf(page, 'system')).toHaveLength(2);
    const numbers = [...page.matchAll(/class="voltaBracket[^"]*".*?<\/g>/gs)].map(([each]) =>
      each
        .replace(/<[^>]*>/g, '')
        .replace(/^[^>]*>/, '')
        .trim(),
    );
    expect(numbers.length).toBe(2);
    expect(numbers.join(' ')).not.toMatch(/\(/);
  });
});

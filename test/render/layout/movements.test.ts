import { describe, expect, it } from 'vitest';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import { barline, buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

describe('the end of a movement', () => {
  it('announces neither the key nor the metre of the next, and fills its line', async () => {
    const final = barline('<bar-style>light-heavy</bar-style>');
    const change =
      '<attributes><key><fifths>2</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time></attributes>';
    const bars = (end: string): Uint8Array =>
      new TextEncoder().encode(
        buildHarp(
          note('C4', 4),
          note('C4', 4),
          note('C4', 4) + end,
          `${change}${note('D4', 3)}`,
          note('E4', 3),
        ),
      );
    const lastBarOf = async (end: string): Promise<string[]> => {
      const annotated = await annotateBytes(annotator, bars(end), {}, 'svg');
      if (!annotated.ok) throw new Error(annotated.problem.code);
      const page = annotated.value.pages[0]!;
      return descendantsNamed(groupsOf(page, 'measure')[2]!, 'g')
        .map(({ attributes }) => attributes.class ?? '')
        .filter((kind) => ['keySig', 'meterSig'].includes(kind));
    };
    expect(await lastBarOf(final)).toEqual([]);
  });
});

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

  it('begins a line where the bars are counted anew behind a double bar line, without a change announced', async () => {
    const double = barline('<bar-style>light-light</bar-style>');
    const change = '<attributes><key><fifths>2</fifths></key></attributes>';
    let bar = 0;
    const numbered = buildHarp(
      note('C4', 4),
      note('C4', 4) + double,
      change + note('D4', 4),
      note('E4', 4),
    ).replace(/<measure number="\d"/gu, () => {
      bar += 1;
      return `<measure number="${bar > 2 ? bar - 2 : bar}"`;
    });
    const annotated = await annotateBytes(annotator, new TextEncoder().encode(numbered), {}, 'svg');
    if (!annotated.ok) throw new Error(annotated.problem.code);
    const systems = groupsOf(annotated.value.pages[0]!, 'system');
    const barsOf = systems.map(({ children }) =>
      children.filter(({ attributes }) => attributes.class === 'measure'),
    );
    const announced = descendantsNamed(barsOf[0]!.at(-1)!, 'g').filter(
      ({ attributes }) => attributes.class === 'keySig',
    );
    expect(barsOf.map(({ length }) => length)).toEqual([2, 2]);
    expect(announced).toEqual([]);
  });
});

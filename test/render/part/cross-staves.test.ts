import { describe, expect, it } from 'vitest';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import { crossStaves } from '../../../render/part/signs/cross-staves.ts';
import { treeOf } from '../page-tree.ts';

const note = (name: string): string => `<note dur="8" pname="${name[0]!}" oct="${name[1]!}"/>`;

/** The notes that are written on the other staff, in a bar of a treble and a bass staff. */
const crossing = (upper: string, lower: string, beside = ''): string[] => {
  const staff = (n: number, events: string): string =>
    `<staff n="${n}"><layer n="1">${events}</layer></staff>`;
  const clefs =
    '<staffDef n="1" clef.shape="G" clef.line="2"/><staffDef n="2" clef.shape="F" clef.line="4"/>';
  const text = `<score><scoreDef>${clefs}</scoreDef><section><measure>${staff(1, upper)}${staff(2, lower)}${beside}</measure></section></score>`;
  const root = treeOf(text);
  const mei = {
    text,
    root,
    staves: ['1', '2'],
    measureOf: () => undefined,
    tagOf: () => undefined,
    isDropped: () => false,
  };
  const { tags } = crossStaves(mei, ['1', '2']);
  return descendantsNamed(root, 'note')
    .filter(({ span }) => tags.has(span.start))
    .map(({ attributes }) => `${attributes.pname}${attributes.oct}`);
};

const beam = (...names: readonly string[]): string => `<beam>${names.map(note).join('')}</beam>`;

describe('a note with five ledger lines towards the other staff is written there', () => {
  it('from above and from below', () => {
    expect(crossing(note('b2'), '')).toEqual(['b2']);
    expect(crossing('', note('d5'))).toEqual(['d5']);
  });

  it('with its whole beam where all of it fits', () => {
    expect(crossing(beam('c4', 'a3', 'b2'), '')).toEqual(['c4', 'a3', 'b2']);
  });

  it('alone where the rest of its beam is out of reach', () => {
    expect(crossing(beam('c6', 'g5', 'b2'), '')).toEqual(['b2']);
  });

  it('with its chord or not at all', () => {
    const chord = (...names: readonly string[]): string => `<chord>${names.map(note).join('')}</chord>`;
    expect(crossing(chord('b2', 'd3'), '')).toEqual(['b2', 'd3']);
    expect(crossing(chord('b2', 'c6'), '')).toEqual([]);
  });

  it('but not one that needs fewer, or that is low on either staff', () => {
    expect(crossing(note('e3'), '')).toEqual([]);
    expect(crossing(note('d1'), '')).toEqual([]);
  });

  it('nor where an accidental would be read otherwise, a clef changes or an octave line runs', () => {
    expect(crossing(note('b2') + note('c5'), note('b2'))).toEqual([]);
    expect(crossing(`<clef shape="F" line="4"/>${note('b2')}`, '')).toEqual([]);
    expect(crossing(note('b2'), '', '<octave staff="2" tstamp="1" tstamp2="4"/>')).toEqual([]);
  });
});

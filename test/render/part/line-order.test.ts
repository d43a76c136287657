import { describe, expect, it } from 'vitest';
import { childrenNamed, descendantsNamed } from '../../../engine/xml/tree.ts';
import { applyEdits } from '../../../render/edit.ts';
import { endOrderEdits } from '../../../render/part/signs/ends-after-starts.ts';
import { backup, DIVISIONS, direction, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { treeOf } from '../page-tree.ts';

/** What stands in each bar, in short: notes by their step, lines by `(` and `)`. */
const ordered = (...bars: readonly string[]): string[] => {
  const text = `<part>${bars.map((bar) => `<measure><attributes><divisions>${DIVISIONS}</divisions></attributes>${bar}</measure>`).join('')}</part>`;
  const edited = applyEdits(text, endOrderEdits(text, childrenNamed(treeOf(text), 'measure')));
  return childrenNamed(treeOf(edited), 'measure').map((measure) =>
    measure.children
      .flatMap((element) => {
        const { name, children } = element;
        if (name === 'note') return descendantsNamed(element, 'step')[0]?.text ?? 'r';
        const line = children[0]?.children[0]?.attributes.type;
        return name === 'direction' ? (line === 'stop' ? ')' : '(') : [];
      })
      .join(''),
  );
};

const line = (type: 'up' | 'stop'): string => direction(`<octave-shift type="${type}" size="8" number="1"/>`);

const dashes = (type: 'start' | 'stop'): string => direction(`<dashes type="${type}" number="1"/>`);

const half = (pitch: string): string => note(pitch, 2);

describe('the end of a line that stands in the file before its beginning, in another voice', () => {
  it('is moved behind the last note of the line', () => {
    expect(ordered(note('C4', 4) + line('stop') + backup(4) + rest(2) + line('up') + half('D2'))).toEqual([
      'Cr(D)',
    ]);
    expect(
      ordered(note('C4', 4) + dashes('stop') + backup(4) + half('E4') + dashes('start') + half('D4')),
    ).toEqual(['CE(D)']);
  });

  it('stays where it ends a line of the bars before', () => {
    const first = line('up') + note('C4', 4);
    expect(
      ordered(first, note('C4', 4) + line('stop') + backup(4) + rest(2) + line('up') + half('D2')),
    ).toEqual(['(C', 'C)r(D']);
  });

  it('is the later of two, of which the first ends a line of the bars before', () => {
    const first = dashes('start') + note('C4', 4);
    const second =
      note('C4', 4) + dashes('stop') + backup(4) + half('E4') + dashes('stop') + dashes('start') + half('D4');
    expect(ordered(first, second)).toEqual(['(C', 'CE)(D)']);
  });

  it('stays where the line begins later', () => {
    expect(
      ordered(half('C4') + line('stop') + half('D4') + backup(4) + half('E4') + line('up') + half('F4')),
    ).toEqual(['C)DE(F']);
  });
});

import { describe, expect, it } from 'vitest';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import { buildHarp, DIVISIONS, direction, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

/** Where the noteheads of a page stand, and how long its octave line is. */
const drawn = async (...bars: readonly string[]) => {
  const bytes = new TextEncoder().encode(buildHarp(...bars));
  const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  const page = annotated.value.pages[0]!;
  const heads = groupsOf(page, 'notehead').flatMap((head) =>
    descendantsNamed(head, 'use').map(({ attributes }) => attributes.transform),
  );
  const lines = groupsOf(page, 'octave').map((line) => line.children.map(({ attributes }) => attributes.d));
  return { heads, lines };
};

const line = (type: 'down' | 'stop', offset = 0): string =>
  direction(
    `<octave-shift type="${type}" size="8" number="1"/>`,
    offset === 0 ? '' : `<offset>${offset * DIVISIONS}</offset>`,
  );

const [c, d, e, f] = ['C6', 'D6', 'E6', 'F6'].map((pitch) => note(pitch)) as [string, string, string, string];

describe('an octave line', () => {
  it('begins and ends at the notes over which the file draws it, earlier or later than its directions', async () => {
    const plain = await drawn(c + line('down') + d + e + line('stop') + f);
    expect(plain.heads).toHaveLength(4);
    expect(plain.lines).toHaveLength(1);
    expect(await drawn(line('down', 0.9) + c + d + e + f + line('stop', -1))).toEqual(plain);
    // Some programs write both behind the first note under the line, the start a little right of its beginning.
    expect(await drawn(c + d + line('down', -0.95) + e + f + line('stop', -1.4))).toEqual(plain);
  });

  it('that would begin at a rest begins at the note after it', async () => {
    const plain = await drawn(rest(1) + line('down') + d + e + f + line('stop'));
    expect(await drawn(rest(1) + line('down', -0.95) + d + e + f + line('stop'))).toEqual(plain);
  });

  it('whose offset leads to no note stays where its direction stands', async () => {
    const plain = await drawn(c + d + line('down') + e + f + line('stop'), note('C5', 4));
    expect(await drawn(c + d + line('down') + e + f + line('stop', -9), note('C5', 4))).toEqual(plain);
  });
});

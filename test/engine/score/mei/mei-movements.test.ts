import { describe, expect, it } from 'vitest';
import { partKey } from '../../../../engine/decisions/read-saved-decisions.ts';
import { pitchName } from '../../../../engine/music/pitch.ts';
import { openScore } from '../../../../engine/score/open.ts';
import { annotateBytes } from '../../../render/annotate-bytes.ts';
import { groupsOf } from '../../../render/page-tree.ts';
import { annotator } from '../../../render/shared-annotator.ts';
import { meiScore } from '../../../render/small-score.ts';

const movement = (pitch: string): string => {
  const text = new TextDecoder().decode(meiScore({ bars: [`${pitch}.1/R`] }));
  return /<mdiv>([\s\S]*)<\/mdiv>/.exec(text)![1]!;
};

/** Dawn on C, a movement without a title on D, and Dusk on E. */
const SUITE = new TextEncoder().encode(
  new TextDecoder()
    .decode(meiScore({ bars: ['c4.1/R'] }))
    .replace(
      /<mdiv>[\s\S]*<\/mdiv>/,
      [
        `<mdiv label="Dawn">${movement('c4')}</mdiv>`,
        `<mdiv n="2">${movement('d4')}</mdiv>`,
        `<mdiv label="Dusk">${movement('e4')}</mdiv>`,
      ].join(''),
    ),
);

const open = (movement?: string) => openScore(SUITE, movement === undefined ? {} : { movement });

const read = (movement?: string) => {
  const opened = open(movement);
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const notesOf = (movement?: string): string[] => read(movement).notes.map(({ pitch }) => pitchName(pitch));

describe('of several movements', () => {
  it('the first is read, the others are listed, and the user is told how to choose one', () => {
    expect(notesOf()).toEqual(['C4']);
    expect(read().remarks.find(({ code }) => code === 'movement-chosen')?.message).toBe(
      'The file has 3 movements, and only the first is read. The option “movement” chooses another: 2 (2), 3 (Dusk).',
    );
  });

  it('one is read by its place or its title, which stands under that of the piece', () => {
    expect(notesOf('2')).toEqual(['D4']);
    expect(notesOf('3')).toEqual(['E4']);
    expect(notesOf('dusk')).toEqual(['E4']);
    expect(read('3').titles).toMatchObject({ title: 'Reeds', subtitle: 'Dusk' });
  });

  it('one that is not there is refused with a list', () => {
    for (const wanted of ['0', '4', 'Noon'])
      expect(open(wanted)).toMatchObject({
        ok: false,
        problem: { code: 'unknown-movement', movements: ['1 (Dawn)', '2 (2)', '3 (Dusk)'] },
      });
    const alone = openScore(meiScore({ bars: ['c4.1/R'] }), { movement: '2' });
    expect(alone).toMatchObject({ ok: false, problem: { code: 'unknown-movement' } });
  });

  it('each keeps its own decisions', () => {
    expect(new Set([partKey(read()), partKey(read('2')), partKey(read('3'))]).size).toBe(3);
  });

  it('the chosen one alone is printed, under the heading of the piece', async () => {
    const annotated = await annotateBytes(annotator, SUITE, { movement: '3' }, 'svg');
    if (!annotated.ok) throw new Error(annotated.problem.code);
    const page = annotated.value.pages[0]!;
    expect(annotated.value.pages).toHaveLength(1);
    expect(groupsOf(page, 'measure')).toHaveLength(1);
    const words = groupsOf(page, 'pgHead')
      .map((head) => page.slice(head.span.start, head.span.end).replace(/<[^>]*>/g, ' '))
      .join(' ');
    expect(words).toMatch(/Reeds\s.*Dusk/s);
  });
});

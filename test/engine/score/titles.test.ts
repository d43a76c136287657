import { describe, expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import { titleOfFile, usableTitle } from '../../../engine/score/usable-title.ts';
import { bar as meiBar, meiScore, notes } from './mei/mei-builder.ts';
import { buildScore, note } from './musicxml/musicxml-builder.ts';

const withHeader = (header: string): string =>
  buildScore([{ id: 'P1', name: 'Harp', bars: [note('C4', 4)] }], header);

const titleOf = (text: string, fileName?: string): string => {
  const read = openScore(new TextEncoder().encode(text), fileName === undefined ? {} : { fileName });
  if (!read.ok) throw new Error(read.problem.code);
  return read.value.titles.title;
};

describe('an id is no title', () => {
  it.each([
    'lc6583966',
    '1234567',
    'score_004711',
    '550e8400-e29b-41d4-a716-446655440000',
    '8f677853c45b74ca0afcd79677e5379c06c82354',
  ])('%s', (id) => {
    expect(usableTitle(id)).toBe('');
  });

  it.each(['1812', 'BWV 1049', 'BWV1001', 'Op. 45', 'Facade', '4 Lieder, Op. 27', 'Study 12345'])(
    'but “%s” is one',
    (title) => {
      expect(usableTitle(title)).toBe(title);
    },
  );
});

describe('the title of a score', () => {
  it('is that of the movement where the work has only an id', () => {
    const header =
      '<work><work-title>lc6583966</work-title></work><movement-title>Two Swans</movement-title>';
    expect(titleOf(withHeader(header), 'a.xml')).toBe('Two Swans');
  });

  it('is the name of the file where the score states an id or nothing', () => {
    expect(titleOf(withHeader('<movement-title>0012345678</movement-title>'), 'two_swans.mxl')).toBe(
      'two swans',
    );
    expect(titleOf(withHeader(''), 'Two Swans.musicxml')).toBe('Two Swans');
    const mei = (title: string): string =>
      meiScore(meiBar({ upper: notes('c4 d4 e4 f4', 4) }), {
        head: `<fileDesc><titleStmt><title>${title}</title></titleStmt></fileDesc>`,
      });
    expect(titleOf(mei('lc6583966'), 'Two Swans.mei')).toBe('Two Swans');
    expect(titleOf(mei('The Ferry'), 'Two Swans.mei')).toBe('The Ferry');
  });

  it('is empty where the file has no name either', () => {
    expect(titleOf(withHeader(''))).toBe('');
  });
});

it.each([
  ['C:\\scores\\Two_Swans.musicxml', 'Two Swans'],
  ['/home/me/The Ferry.xml.mxl', 'The Ferry'],
  ['No. 3.mei', 'No. 3'],
  ['.musicxml', ''],
  ['Tide\u202ecod.mxl', 'Tide cod'],
  ['Low\u0000\u001b[31m Water.mei', 'Low [31m Water'],
  ['\ud800Ebb.xml', 'Ebb'],
])('the file %s is called “%s”', (name, title) => {
  expect(titleOfFile(name)).toBe(title);
});

it('a name of any length is cut as titles are, and takes no longer for its endings', () => {
  const title = titleOf(withHeader(''), `${'.xml'.repeat(30_000)}Tide.mxl`);
  expect(title.length).toBeLessThan(302);
});

import { describe, expect, it } from 'vitest';
import { cutTunes } from '../../../../engine/score/abc/book/cut-tunes.ts';
import { listTunes } from '../../../../engine/score/abc/book/list-tunes.ts';
import { pickTunes } from '../../../../engine/score/abc/book/tune-book.ts';
import { openScoreFile } from '../../../../engine/score/open-file.ts';

const BOOK = `%abc-2.1
M:2/4
L:1/8

Free text about the book.

X:1
T:First
K:G
GA !slide!Bd|]

X:1
T:Second by the same number
K:D
DE !slide!FA|]
stray
% a comment
X:3
T:Third
Q:1/4=90
K:C
CE !slide!GE|]
`;

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

const latin1Of = (text: string): Uint8Array => Uint8Array.from(text, (each) => each.charCodeAt(0));

const tunesOf = (bytes: Uint8Array) => {
  const listed = listTunes(bytes);
  if (!listed.ok || listed.value === null) throw new Error('no tunes');
  return listed.value;
};

const readAs = async (bytes: Uint8Array, tune: string) => {
  const opened = await openScoreFile(bytes, { tune });
  if (!opened.ok) return opened;
  const { source, remarks } = opened.value;
  return { text: source.text, remarks };
};

describe('a tune that is cut out of its book', () => {
  it.each([
    ['lines of any end', bytesOf(BOOK)],
    ['a byte order mark', bytesOf(`\uFEFF${BOOK}`)],
    ['lines that end as on Windows', bytesOf(BOOK.replaceAll('\n', '\r\n'))],
    ['letters of Latin-1', latin1Of(BOOK.replaceAll('T:', 'T:\xC9'))],
    ['letters of UTF-8', bytesOf(BOOK.replaceAll('T:', 'T:É'))],
    ['a tune without a key', bytesOf(BOOK.replace('K:D\n', ''))],
    [
      'wide characters',
      new Uint8Array([0xff, 0xfe, ...[...BOOK].flatMap((each) => [each.charCodeAt(0), 0])]),
    ],
  ])('is read as in the book, what is lost with the same line: %s', async (_, bytes) => {
    const cut = cutTunes(bytes);
    const tunes = tunesOf(bytes);
    expect(tunes).toHaveLength(3);
    for (const [index, { number }] of tunes.entries())
      expect(await readAs(cut(index, number), number)).toEqual(await readAs(bytes, number));
  });

  it('has nothing of the other tunes', () => {
    const alone = cutTunes(bytesOf(BOOK))(1, '1-2');
    expect(tunesOf(alone)).toEqual([{ number: '1-2', title: 'Second by the same number' }]);
    expect(alone.length).toBeLessThan(BOOK.length);
  });
});

describe('a list of tunes', () => {
  const TUNES = [
    { number: '1', title: 'Rowan' },
    { number: '2', title: 'Down, the Lane' },
    { number: '3', title: 'Rowan, 1' },
  ];
  const picked = (...wanted: readonly string[]) => {
    const { chosen, unknown } = pickTunes(TUNES, wanted);
    return [...chosen.map(({ number }) => number), ...unknown];
  };

  it('may have commas between numbers and titles where each of them is a tune, and in a title', () => {
    expect(picked('3, Rowan')).toEqual(['3', '1']);
    expect(picked('down, the lane')).toEqual(['2']);
    expect(picked('Rowan, 1', '2')).toEqual(['3', '2']);
    expect(picked('1, Alder, 3')).toEqual(['1, Alder, 3']);
  });
});

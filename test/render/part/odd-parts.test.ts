import { describe, expect, it } from 'vitest';
import type { Annotation } from '../../../render/annotation.ts';
import { buildScore, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { annotator } from '../shared-annotator.ts';
import { annotateFile } from '../source/annotate-file.ts';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

const UPPER = [note('C4', 4), note('C#4', 4)];
const LOWER = [note('C3', 4), note('D3', 4)];

const harpCalled = (id: string): string => buildScore([{ id, name: 'Harp', bars: UPPER }]);

const HANDS = buildScore([
  { id: 'P1', name: 'Harp RH', bars: UPPER },
  { id: 'P2', name: 'Harp LH', bars: LOWER },
]);

/** A score sorted by bar: of each bar the music by part. */
const byBar = (bars: readonly Readonly<Record<string, string>>[], names = { P1: 'Harp' }): string => {
  const list = Object.entries(names).map(
    ([id, name]) => `<score-part id="${id}"><part-name>${name}</part-name></score-part>`,
  );
  const begin = '<attributes><divisions>240</divisions></attributes>';
  const measures = bars.map((parts, bar) => {
    const written = Object.entries(parts).map(([id, music]) => `<part id="${id}">${begin}${music}</part>`);
    return `<measure number="${bar + 1}">${written.join('')}</measure>`;
  });
  return `<score-timewise version="4.0"><part-list>${list.join('')}</part-list>${measures.join('')}</score-timewise>`;
};

const engrave = async (xml: string): Promise<Annotation> => {
  const annotated = await annotateBytes(annotator, encode(xml), {}, 'svg');
  if (!annotated.ok) throw new Error(annotated.problem.code);
  return annotated.value;
};

const count = ({ pages }: Annotation, cls: string): number =>
  pages.join('').match(new RegExp(`class="${cls}[" ]`, 'g'))?.length ?? 0;

describe('a harp with a hand that the file lists and does not hold', () => {
  it.each([
    ['the left', HANDS.replace(/<part id="P2">.*<\/part>/su, ''), 'Harp LH'],
    ['the right', HANDS.replace(/<part id="P1">.*?<\/part>/su, ''), 'Harp RH'],
    ['the left, without a bar', HANDS.replace(/<part id="P2">.*<\/part>/su, '<part id="P2"/>'), 'Harp LH'],
  ])('is printed with the other, and the user is told: %s', async (_, xml, hand) => {
    const annotation = await engrave(xml);
    expect([count(annotation, 'measure'), count(annotation, 'staff'), count(annotation, 'note')]).toEqual([
      2, 2, 2,
    ]);
    expect(annotation.remarks.map(({ message }) => message)).toContain(
      `${hand} is listed, but the file has no bars of it.`,
    );
    expect(annotateFile(encode(xml), { others: 'keep' }).ok).toBe(true);
  });
});

describe('a part is printed whatever its id', () => {
  it.each(['', ' P 1 ', "P'1", 'P&quot;1', 'P&amp;1'])('“%s”', async (id) => {
    expect(count(await engrave(harpCalled(id)), 'note')).toBe(2);
  });

  it('where it has none', async () => {
    expect(count(await engrave(harpCalled('P1').replaceAll(' id="P1"', '')), 'note')).toBe(2);
  });

  it('where another part has the same: the first is read and printed', async () => {
    const two = buildScore([
      { id: 'P1', name: 'Harp', bars: UPPER },
      { id: 'P1', name: 'Flute', bars: [...LOWER, note('G5', 4)] },
    ]);
    expect(count(await engrave(two), 'note')).toBe(2);
  });
});

describe('a score sorted by bar', () => {
  const [first, second] = UPPER as [string, string];

  it('is printed like one sorted by part', async () => {
    const words = ({ pages }: Annotation): string[] =>
      pages.map((page) => page.replace(/<[^>]*>/gu, ' ').replace(/\s+/gu, ' '));
    const sorted = await engrave(byBar([{ P1: first }, { P1: second }]));
    expect(count(sorted, 'note')).toBe(2);
    expect(words(sorted)).toEqual(words(await engrave(harpCalled('P1'))));
  });

  it.each([
    ['the first', [{}, { P1: second }]],
    ['a later one', [{ P1: second }, {}]],
  ])('prints a rest in a bar that has nothing for the harp: %s', async (_, bars) => {
    const annotation = await engrave(byBar(bars));
    expect([count(annotation, 'measure'), count(annotation, 'note'), count(annotation, 'mRest')]).toEqual([
      2, 1, 1,
    ]);
  });

  it('keeps the hands together where one rests', async () => {
    const hands = { P1: 'Harp RH', P2: 'Harp LH' };
    const annotation = await engrave(byBar([{ P1: first }, { P1: second, P2: LOWER[1]! }], hands));
    expect([count(annotation, 'staff'), count(annotation, 'note'), count(annotation, 'mRest')]).toEqual([
      4, 3, 1,
    ]);
  });
});

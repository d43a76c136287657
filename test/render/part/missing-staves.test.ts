import { describe, expect, it } from 'vitest';
import { annotateBytes } from '../annotate-bytes.ts';
import { treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiFluteAndHarp, meiScore } from '../small-score.ts';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** The first page. */
const page = async (bytes: Uint8Array): Promise<string> => {
  const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
  if (!annotated.ok) throw new Error(annotated.problem.code);
  return annotated.value.pages[0]!;
};

const count = (svg: string, cls: string): number =>
  svg.match(new RegExp(`class="${cls}[" ]`, 'g'))?.length ?? 0;

/** `bars` where the harp's staves of the bars with these numbers are left out. */
const without = (bytes: Uint8Array, numbers: readonly number[], staves: readonly number[]): Uint8Array => {
  const lacking = new RegExp(`<staff n="[${staves.join('')}]">.*?</staff>`, 'gs');
  return encode(
    textOf(bytes).replace(/<measure n="(\d+)".*?<\/measure>/gs, (measure, number) =>
      numbers.includes(Number(number)) ? measure.replace(lacking, '') : measure,
    ),
  );
};

const FOUR_BARS = meiScore({ bars: ['c4.1/R', 'c4.1/R', 'c4.1/R', 'c4.1/c3.1'] });

describe('a bar of an MEI score without a staff of the part prints as a rest', () => {
  it('where the score begins with it', async () => {
    const svg = await page(without(meiFluteAndHarp(['', '', '']), [1], [2, 3]));
    expect(count(svg, 'measure')).toBe(3);
    expect(count(svg, 'mRest')).toBe(2);
  });

  it('where one of the two staves is there', async () => {
    const svg = await page(without(FOUR_BARS, [4], [2]));
    expect(count(svg, 'staff')).toBe(8);
    expect(count(svg, 'mRest')).toBe(4);
    expect(count(svg, 'note')).toBe(4);
  });

  it('where the score hides the staff while its player rests', async () => {
    const hidden = textOf(FOUR_BARS).replace(/<staff n="2"(?=><layer[^>]*><mRest)/g, '$& visible="false"');
    expect(hidden).toContain('visible="false"');
    const drawn = (await page(encode(hidden))).match(/<path/g)?.length;
    expect(drawn).toBe((await page(FOUR_BARS)).match(/<path/g)?.length);
  });

  it('joined with the bars of rest beside it', async () => {
    const svg = await page(without(meiFluteAndHarp(['', '', '', '']), [2, 3], [2, 3]));
    expect(count(svg, 'measure')).toBe(3);
    expect(count(svg, 'multiRest')).toBe(2);
  });

  it.each([
    ['alone', [2]],
    ['joined', [2, 3]],
    ['at the end', [4]],
  ])('where its element is empty: %s', async (_, empty) => {
    const text = textOf(FOUR_BARS).replace(/<measure n="(\d+)"([^>]*)>.*?<\/measure>/gs, (whole, n, more) =>
      empty.includes(Number(n)) ? `<measure n="${n}"${more}/>` : whole,
    );
    const svg = await page(encode(text));
    expect(count(svg, 'note')).toBe(empty.includes(4) ? 3 : 5 - empty.length);
    expect(count(svg, 'mRest') + count(svg, 'multiRest')).toBeGreaterThan(2);
    expect(treeOf(svg).name).toBe('svg');
  });
});

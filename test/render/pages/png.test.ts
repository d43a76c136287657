import { describe, expect, it } from 'vitest';
import { paintPng } from '../../../render/printed/png.ts';
import { finishPage } from '../../../render/text/finish-page.ts';

const page = (inner: string): string =>
  finishPage(
    `<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="20mm" viewBox="0 0 5000 2000">${inner}</svg>`,
  ).svg;

const words = (family: string): string =>
  page(`<text x="100" y="1500" font-family="${family}" font-size="1000px">Harp</text>`);

const sizeOf = (png: Uint8Array): readonly [number, number] => {
  // PNG (third edition), 11.2.1: width and height stand first in IHDR, the first chunk.
  const view = new DataView(png.buffer, png.byteOffset);
  return [view.getUint32(16), view.getUint32(20)];
};

describe('a painted page', () => {
  it('has eight pixels to the millimetre', async () => {
    const png = await paintPng(page(''));
    expect([...png.subarray(1, 4)].map((byte) => String.fromCharCode(byte)).join('')).toBe('PNG');
    expect(sizeOf(png)).toEqual([400, 160]);
  });

  it('shows its words, in our font wherever it is painted', async () => {
    const empty = await paintPng(page(''));
    const painted = await paintPng(words('Tinos'));
    expect(painted.length).toBeGreaterThan(2 * empty.length);
    expect(Buffer.from(await paintPng(words('serif'))).equals(Buffer.from(painted))).toBe(true);
  });
});

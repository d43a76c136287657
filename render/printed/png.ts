import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { readFontFile, TEXT_FACES } from '../text/fonts.ts';

/** Of a page of A4 some 1,700 by 2,400. */
const PIXELS_A_MM = 8;

const MM_A_INCH = 25.4;

type Painter = typeof import('@resvg/resvg-wasm');

let started: Promise<Painter> | null = null;

/** Loaded when it is wanted: 2.5 MB that all else does without. */
const startPainter = async (): Promise<Painter> => {
  const painter = await import('@resvg/resvg-wasm');
  const { resolve } = createRequire(import.meta.url);
  await painter.initWasm(readFileSync(resolve('@resvg/resvg-wasm/index_bg.wasm')));
  return painter;
};

/**
 * Paints a finished page on white, with 8 pixels to the millimetre.
 *
 * @param page an SVG document from `finishPage` or of an annotation
 * @returns the bytes of a PNG file: the same for the same page on every machine
 */
export const paintPng = async (page: string): Promise<Uint8Array> => {
  started ??= startPainter();
  const { Resvg } = await started;
  const painted = new Resvg(page, {
    dpi: PIXELS_A_MM * MM_A_INCH,
    background: '#fff',
    font: { fontBuffers: TEXT_FACES.map(readFontFile), defaultFontFamily: 'Tinos', serifFamily: 'Tinos' },
  });
  try {
    const image = painted.render();
    try {
      return image.asPng();
    } finally {
      image.free();
    }
  } finally {
    painted.free();
  }
};

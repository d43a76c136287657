import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { CHROMIUM, CHROMIUM_ARGUMENTS } from '../chromium.ts';

/** A picture in greys, 0 black to 255 white, row by row. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly greys: Uint8Array;
}

const DPI = 96;

/** Every page of a PDF, drawn by Poppler. */
export const drawPdf = (pdf: Uint8Array): Picture[] =>
  inFolder((folder) => {
    writeFileSync(join(folder, 'part.pdf'), pdf);
    execFileSync('pdftoppm', ['-r', `${DPI}`, '-gray', join(folder, 'part.pdf'), join(folder, 'page')]);
    return readdirSync(folder)
      .filter((name) => name.endsWith('.pgm'))
      .sort()
      .map((name) => readPgm(readFileSync(join(folder, name))));
  });

/** An SVG page, drawn by Chromium. */
export const drawSvg = (svg: string, { width, height }: Picture): Picture =>
  inFolder((folder) => {
    writeFileSync(
      join(folder, 'page.html'),
      `<!DOCTYPE html><meta charset="utf-8"><style>body{margin:0;background:#fff}svg{display:block}</style>${svg}`,
    );
    execFileSync(
      CHROMIUM,
      [
        ...CHROMIUM_ARGUMENTS,
        '--hide-scrollbars',
        '--disable-lcd-text',
        // Fonts and every stage of painting are waited for, however busy the machine is.
        '--virtual-time-budget=10000',
        '--run-all-compositor-stages-before-draw',
        `--window-size=${width},${height}`,
        `--screenshot=${join(folder, 'page.png')}`,
        `file://${join(folder, 'page.html')}`,
      ],
      { stdio: 'ignore' },
    );
    return readPng(readFileSync(join(folder, 'page.png')));
  });

/** How two pictures of a page differ. */
export interface Difference {
  /**
   * The share of pixels that are dark in one picture and have nothing dark within one pixel in the other: edges are
   * smoothed differently by each program, but nothing may be missing or elsewhere.
   */
  readonly share: number;
  /** Where, in words for a failure: between which pixels. */
  readonly where: string;
}

export const differenceOf = (a: Picture, b: Picture): Difference => {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let y = 1; y < a.height - 1; y += 1) {
    for (let x = 1; x < a.width - 1; x += 1) {
      if (!isAlone(a, b, x, y) && !isAlone(b, a, x, y)) continue;
      xs.push(x);
      ys.push(y);
    }
  }
  const span = (all: readonly number[]): string =>
    all.length === 0 ? 'none' : `${Math.min(...all)}-${Math.max(...all)}`;
  return { share: xs.length / (a.width * a.height), where: `x ${span(xs)}, y ${span(ys)}` };
};

const DARK = 110;
const FAINT = 215;

const isAlone = (a: Picture, b: Picture, x: number, y: number): boolean => {
  if (a.greys[y * a.width + x]! > DARK) return false;
  for (let dy = -1; dy <= 1; dy += 1) {
    for (let dx = -1; dx <= 1; dx += 1) {
      if (b.greys[(y + dy) * b.width + x + dx]! < FAINT) return false;
    }
  }
  return true;
};

/** How much of a picture is dark: a blank page would agree with another blank page. */
export const darkShare = ({ greys }: Picture): number =>
  greys.reduce((dark, grey) => dark + (grey < DARK ? 1 : 0), 0) / greys.length;

const inFolder = <T>(work: (folder: string) => T): T => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-picture-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const readPgm = (bytes: Buffer): Picture => {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'))!;
  const greys = new Uint8Array(bytes.subarray(header[0].length));
  return { width: Number(header[1]), height: Number(header[2]), greys };
};

/** Reads what Chromium writes: eight bits a channel, red, green, blue and maybe opacity, not interlaced. */
const readPng = (bytes: Buffer): Picture => {
  const width = bytes.readUInt32BE(16);
  const height = bytes.readUInt32BE(20);
  const channels = { 2: 3, 6: 4 }[bytes[25]!];
  if (channels === undefined || bytes[24] !== 8 || bytes[28] !== 0) throw new Error('a PNG of another kind');
  const data: Buffer[] = [];
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at)) {
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT')
      data.push(bytes.subarray(at + 8, at + 8 + bytes.readUInt32BE(at)));
  }
  const rows = unfilter(inflateSync(Buffer.concat(data)), width * channels, height, channels);
  const greys = new Uint8Array(width * height);
  for (let i = 0; i < greys.length; i += 1) {
    const [red, green, blue] = [rows[i * channels]!, rows[i * channels + 1]!, rows[i * channels + 2]!];
    greys[i] = Math.round(0.299 * red + 0.587 * green + 0.114 * blue);
  }
  return { width, height, greys };
};

/** Undoes PNG's row filters (PNG 1.2, section 6). */
const unfilter = (raw: Buffer, stride: number, height: number, step: number): Uint8Array => {
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y += 1) {
    const filter = raw[y * (stride + 1)]!;
    for (let x = 0; x < stride; x += 1) {
      const left = x >= step ? out[y * stride + x - step]! : 0;
      const up = y > 0 ? out[(y - 1) * stride + x]! : 0;
      const corner = x >= step && y > 0 ? out[(y - 1) * stride + x - step]! : 0;
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter]!;
      out[y * stride + x] = raw[y * (stride + 1) + 1 + x]! + guess;
    }
  }
  return out;
};

const paeth = (left: number, up: number, corner: number): number => {
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  if (a <= b && a <= c) return left;
  return b <= c ? up : corner;
};

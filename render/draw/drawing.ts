import type { BoxSize } from '../layout/spaces/placeholder.ts';

/** Something drawn: the room it takes, and its vectors from the box's top left corner. Lengths in vu (half staff spaces). */
export interface Drawing {
  readonly box: BoxSize;
  /** SVG elements in coordinates of vu, y downward. */
  readonly body: string;
  /** What it says in letters, for searches and screen readers: its own letters are outlines. */
  readonly text: string;
  /** Where what begins at its moment begins, from the left, where words or a wedge begin before; else at its left edge. */
  readonly startVu?: number;
  /** Where what must end before a note ends, from the left, where words under it reach farther; else the whole of it. */
  readonly endVu?: number;
  /** How much at its end may stand under the note that it ends before: of the name of a string its octave. */
  readonly tailVu?: number;
  /** How high is what words stand under, where there are words. */
  readonly headVu?: number;
  /** These words, as the body: they may be set lower than they are here. */
  readonly words?: string;
}

/** Drawings under one another, their middles on one line. */
export const stackDrawings = (drawings: readonly Drawing[]): Drawing => {
  const widthVu = Math.max(...drawings.map(({ box }) => box.widthVu));
  let y = 0;
  const bodies = drawings.map(({ box, body }) => {
    const placed = drawings.length === 1 ? body : moveBy((widthVu - box.widthVu) / 2, y, body);
    y += box.heightVu;
    return placed;
  });
  const starting = drawings.find(({ startVu }) => startVu !== undefined);
  return {
    box: { widthVu, heightVu: y },
    body: bodies.join(''),
    text: drawings.map(({ text }) => text).join(' '),
    ...(starting === undefined ? {} : { startVu: (widthVu - starting.box.widthVu) / 2 + starting.startVu! }),
  };
};

/** Drawings beside one another, their middles on one line. */
export const setBeside = (drawings: readonly Drawing[], gapVu: number): Drawing => {
  const heightVu = Math.max(...drawings.map(({ box }) => box.heightVu));
  let x = 0;
  const bodies = drawings.map(({ box, body }) => {
    const placed = drawings.length === 1 ? body : moveBy(x, (heightVu - box.heightVu) / 2, body);
    x += box.widthVu + gapVu;
    return placed;
  });
  return {
    box: { widthVu: x - gapVu, heightVu },
    body: bodies.join(''),
    text: drawings.map(({ text }) => text).join(' '),
  };
};

/** A drawing in a room that is as wide at least, at one side of it or in its middle. */
export const inWidth = (drawing: Drawing, leastVu: number, side: keyof typeof SHARE_LEFT): Drawing => {
  const more = leastVu - drawing.box.widthVu;
  return more <= 0
    ? drawing
    : {
        ...drawing,
        box: { ...drawing.box, widthVu: leastVu },
        body: moveBy(more * SHARE_LEFT[side], 0, drawing.body),
      };
};

/** A drawing in a room that is so many times as high, in its middle. */
export const inHeight = (drawing: Drawing, times: number): Drawing => {
  const more = (times - 1) * drawing.box.heightVu;
  return more <= 0
    ? drawing
    : {
        ...drawing,
        box: { ...drawing.box, heightVu: drawing.box.heightVu + more },
        body: moveBy(0, more / 2, drawing.body),
      };
};

/** How much of what is left of a width stands before something at that side. */
export const SHARE_LEFT = { left: 0, centre: 0.5, right: 1 } as const;

const moveBy = (x: number, y: number, body: string): string =>
  `<g transform="translate(${roundUnits(x)} ${roundUnits(y)})">${body}</g>`;

/** The music font's em is four staff spaces. */
export const VU_PER_EM = 8;

/** Clear space inside a box on every side. */
export const PADDING_VU = 0.7;

/** An outline at its place, in the page's colour. */
export const drawPath = (pathData: string, x: number, y: number, scale: number): string => {
  const zoom = scale === 1 ? '' : ` scale(${roundUnits(scale)})`;
  return `<path transform="translate(${roundUnits(x)} ${roundUnits(y)})${zoom}" d="${pathData}"/>`;
};

/** A ring round something that is to be seen at once. */
export const ringAround = (cx: number, cy: number, rx: number, ry: number): string =>
  `<ellipse class="ring" cx="${roundUnits(cx)}" cy="${roundUnits(cy)}" rx="${roundUnits(rx)}" ry="${roundUnits(ry)}" ` +
  `fill="none" stroke="currentColor" stroke-width="${RING_STROKE_VU}"/>`;

/** A ring round a word: a box with round ends. */
export const ringRect = (x: number, y: number, width: number, height: number): string =>
  `<rect class="ring" x="${roundUnits(x)}" y="${roundUnits(y)}" width="${roundUnits(width)}" height="${roundUnits(height)}" ` +
  `rx="${roundUnits(height / 2.5)}" fill="none" stroke="currentColor" stroke-width="${RING_STROKE_VU}"/>`;

const RING_STROKE_VU = 0.16;

export const roundUnits = (value: number): number => Math.round(value * 10000) / 10000;

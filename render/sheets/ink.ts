import type { Drawing } from '../draw/drawing.ts';
import { roundUnits } from '../draw/drawing.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';

/** What is drawn on sheets beside words. Lengths in millimetres from the sheet's top left corner, y downward. */

/** Millimetres as whole units of a page's drawing. */
export const unitsOf = (mm: number): number => Math.round(mm * SVG_UNITS_PER_MM);

export interface Stroke {
  readonly widthMm: number;
  readonly colour?: string;
  readonly dashed?: boolean;
}

/** A line through points, open. */
export const drawLine = (
  points: readonly (readonly [number, number])[],
  { widthMm, colour = '#000', dashed = false }: Stroke,
): string => {
  const path = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${unitsOf(x)} ${unitsOf(y)}`).join('');
  const dash = dashed ? ` stroke-dasharray="${unitsOf(widthMm * 4)}"` : '';
  return `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${unitsOf(widthMm)}"${dash}/>`;
};

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A filled rectangle. */
export const fillRectangle = ({ x, y, widthMm, heightMm }: Rectangle, colour: string): string =>
  `<rect x="${unitsOf(x)}" y="${unitsOf(y)}" width="${unitsOf(widthMm)}" height="${unitsOf(heightMm)}" fill="${colour}"/>`;

/** A filled circle. */
export const fillCircle = (x: number, y: number, radiusMm: number, colour: string): string =>
  `<circle cx="${unitsOf(x)}" cy="${unitsOf(y)}" r="${unitsOf(radiusMm)}" fill="${colour}"/>`;

/** The outline of a rectangle. */
export const frameRectangle = (
  { x, y, widthMm, heightMm }: Rectangle,
  { widthMm: stroke, colour = '#000' }: Stroke,
): string =>
  `<rect x="${unitsOf(x)}" y="${unitsOf(y)}" width="${unitsOf(widthMm)}" height="${unitsOf(heightMm)}" ` +
  `fill="none" stroke="${colour}" stroke-width="${unitsOf(stroke)}"/>`;

/** A drawing of the music pages at a size of one's own. */
export const placeDrawing = ({ body, words = '' }: Drawing, x: number, y: number, mmPerVu: number): string =>
  `<g transform="translate(${unitsOf(x)} ${unitsOf(y)}) scale(${roundUnits(mmPerVu * SVG_UNITS_PER_MM)})">${body}${words}</g>`;

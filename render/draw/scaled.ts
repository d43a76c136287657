import { type EngravingOptions, mmPerVu } from '../engraving-options.ts';
import { type Drawing, roundUnits } from './drawing.ts';

type Size = Pick<EngravingOptions, 'settingMm' | 'staffMm'>;

/** How much larger something is drawn that is so wide by nature: it may have a width of its own, whatever the staff. */
export const scaleFor = (widthVu: number, { settingMm, staffMm }: Size): number =>
  settingMm === null ? 1 : settingMm / mmPerVu({ staffMm }) / widthVu;

/** A full setting as wide as is wished. */
export const scaleToWidth = (drawing: Drawing, size: Size): Drawing => {
  const { box, body, text } = drawing;
  const scale = scaleFor(box.widthVu, size);
  if (scale === 1) return drawing;
  return {
    box: { widthVu: box.widthVu * scale, heightVu: box.heightVu * scale },
    body: `<g transform="scale(${roundUnits(scale)})">${body}</g>`,
    text,
  };
};

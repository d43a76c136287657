import { FEET, type Position } from '../../../engine/index.ts';
import { type Drawing, drawPath, PADDING_VU, ringAround, VU_PER_EM } from '../../draw/drawing.ts';
import { rowText, settingItems } from '../../draw/name-items.ts';
import type { Pen, SettingLook, SettingToDraw } from '../look.ts';

/** SMuFL 1.4: harpPedalRaised, harpPedalCentered, harpPedalLowered, harpPedalDivider. */
const PEDAL_GLYPH: Readonly<Record<Position, number>> = { [-1]: 0xe680, 0: 0xe681, 1: 0xe682 };
const DIVIDER_GLYPH = 0xe683;

/** A little larger than the font's own size, which is lost under a full chord (by eye). */
const SCALE = (VU_PER_EM / 1000) * 1.15;

/** A ring is wider than a stroke and does not touch the next ring; it is taller than wide, as the stroke is. */
const RING = { rx: 0.92, ry: 1.85 } as const;

const draw = ({ setting, ringed, naming }: SettingToDraw, pen: Pen): Drawing => {
  const pedals = [...FEET.left, ...FEET.right].map((letter) => ({
    glyph: pen.glyph(PEDAL_GLYPH[setting[letter]]),
    ringed: ringed.includes(letter),
  }));
  const divider = { glyph: pen.glyph(DIVIDER_GLYPH), ringed: false };
  const signs = [...pedals.slice(0, FEET.left.length), divider, ...pedals.slice(FEET.left.length)];
  const margin = PADDING_VU + (ringed.length > 0 ? RING_MARGIN_VU : 0);
  const top = margin - divider.glyph.box.y0 * SCALE;
  let x = PADDING_VU;
  const body = signs.map(({ glyph, ringed: isRinged }) => {
    const path = drawPath(glyph.pathData, x, top, SCALE);
    const centre = {
      x: x + (glyph.advance * SCALE) / 2,
      y: top + ((glyph.box.y0 + glyph.box.y1) / 2) * SCALE,
    };
    x += glyph.advance * SCALE;
    return path + (isRinged ? ringAround(centre.x, centre.y, RING.rx, RING.ry) : '');
  });
  const line = drawPath(lineFrom(0, (x - PADDING_VU) / SCALE), PADDING_VU, top, SCALE);
  const text = rowText(settingItems(setting, ringed), naming);
  const height = (divider.glyph.box.y1 - divider.glyph.box.y0) * SCALE;
  return {
    box: { widthVu: x + PADDING_VU, heightVu: height + 2 * margin },
    body: line + body.join(''),
    text,
  };
};

/** Each glyph has its piece of the line and they meet edge to edge: one line behind them all hides the seams. */
const lineFrom = (x0: number, x1: number): string => `M${x0} -390H${Math.round(x1)}V-360H${x0}Z`;

const RING_MARGIN_VU = 0.6;

/** The diagram of a setting: strokes above, across or below a line, the feet parted by a divider. */
export const DIAGRAM: SettingLook = {
  words: { label: 'as diagram', meaning: 'a diagram of the pedals' },
  draw,
};

/** Page widths, in percent. */
const ZOOMS = [50, 75, 100, 150, 200, 300] as const;

export type Zoom = (typeof ZOOMS)[number];

/** A step larger or smaller; the size as it is where there is none. */
export const stepZoom = (now: Zoom, step: 1 | -1): Zoom => ZOOMS[ZOOMS.indexOf(now) + step] ?? now;

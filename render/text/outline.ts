/** A rectangle with y downward: `y0` is the top edge. */
export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A music glyph as an outline: 1000 units to the em (four staff spaces), y downward, the origin at 0, 0. */
export interface Glyph {
  /** SVG path data to be filled; empty for a glyph without ink. */
  readonly pathData: string;
  readonly advance: number;
  readonly box: Box;
}

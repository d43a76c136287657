/** The part of opentype.js 2.0.0 that is used here; the package carries no types. */
declare module 'opentype.js/dist/opentype.mjs' {
  export interface BoundingBox {
    readonly x1: number;
    readonly y1: number;
    readonly x2: number;
    readonly y2: number;
  }

  export interface Path {
    extend(path: Path): void;
    /** Without `flipY: false` the outline is turned upside down within its box. */
    toPathData(options: {
      readonly decimalPlaces: number;
      readonly optimize: boolean;
      readonly flipY: boolean;
    }): string;
    getBoundingBox(): BoundingBox;
  }

  export const Path: new () => Path;

  export interface Glyph {
    readonly index: number;
    /** In font units, `unitsPerEm` to the em. */
    readonly advanceWidth: number;
    /** The outline with y downward, its origin at x, y. */
    getPath(x: number, y: number, fontSize: number): Path;
    /** In font units with y upward. */
    getBoundingBox(): BoundingBox;
  }

  export interface Font {
    readonly unitsPerEm: number;
    hasChar(character: string): boolean;
    charToGlyph(character: string): Glyph;
    getKerningValue(left: Glyph, right: Glyph): number;
  }

  /** `lowMemory`: glyphs are read when they are asked for. */
  export const parse: (buffer: ArrayBuffer, options: { readonly lowMemory: boolean }) => Font;
}

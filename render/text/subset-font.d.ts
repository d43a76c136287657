/** The part of subset-font that is used here; the package carries no types. */
declare module 'subset-font' {
  /** The font with no more than the glyphs of `text` and what its tables need of them. */
  const subsetFont: (
    font: Buffer,
    text: string,
    options: {
      readonly targetFormat: 'truetype';
      readonly noHinting: boolean;
    },
  ) => Promise<Buffer>;
  export default subsetFont;
}

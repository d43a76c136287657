declare module 'verovio/esm' {
  interface VerovioToolkit {
    /** Note onsets and measure starts in quarter notes (`qstamp`) and milliseconds (`tstamp`); each tied note is listed. */
    renderToTimemap(options: Record<string, unknown>): readonly {
      readonly qstamp: number;
      readonly tstamp: number;
      /** Quarter notes a minute from here on. */
      readonly tempo?: number;
      readonly on?: readonly string[];
      readonly measureOn?: string;
    }[];
    renderToMIDI(): string;
    /** Known only after `renderToMIDI`. */
    getMIDIValuesForElement(id: string): { readonly pitch?: number };
  }
}

declare module 'verovio/esm' {
  interface VerovioToolkit {
    /** Note onsets and measure starts in quarter notes; each tied note is listed. */
    renderToTimemap(options: Record<string, unknown>): readonly {
      readonly qstamp: number;
      readonly on?: readonly string[];
      readonly measureOn?: string;
    }[];
    renderToMIDI(): string;
    /** Known only after `renderToMIDI`. */
    getMIDIValuesForElement(id: string): { readonly pitch?: number };
  }
}

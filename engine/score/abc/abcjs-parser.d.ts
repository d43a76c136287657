declare module 'abcjs/src/parse/abc_parse.js' {
  /** The parser alone: it draws nothing, plays nothing and needs no document. */
  export default class Parse {
    /** @throws on some broken input */
    parse(tune: string, switches: Readonly<Record<string, unknown>>): void;
    getTune(): unknown;
    getWarningObjects():
      | readonly { readonly message: string; readonly line: string; readonly startChar: number }[]
      | undefined;
  }
}

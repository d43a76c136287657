declare module 'verovio/wasm' {
  const createVerovioModule: () => Promise<object>;
  export default createVerovioModule;
}

declare module 'verovio/esm' {
  export const LOG_OFF: number;
  export const enableLog: (level: number, module: object) => void;

  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Record<string, unknown>): void;
    resetOptions(): void;
    /** 1 where a document was loaded, 0 where the previous one stays. */
    loadData(data: string): number;
    getMEI(options: Record<string, unknown>): string;
    getPageCount(): number;
    /** @param page from 1 */
    renderToSVG(page: number): string;
    getVersion(): string;
  }
}

import type { WriteStream } from 'node:tty';

/** One line that says how far long work is. */
export interface ProgressLine {
  readonly show: (text: string) => void;
  /** Takes the line away, so that what is printed next stands in its place. */
  readonly clear: () => void;
}

const ERASE_LINE = '\r\u001b[K';

/** A line on the error output that is written over as the work goes on; only where that is a terminal. */
export const openProgressLine = (
  stream: Pick<WriteStream, 'write'> & { readonly isTTY?: boolean } = process.stderr,
): ProgressLine => {
  const write = (text: string): void => {
    if (stream.isTTY === true) stream.write(`${ERASE_LINE}${text}`);
  };
  return { show: write, clear: () => write('') };
};

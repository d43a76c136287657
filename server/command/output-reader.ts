import type { Writable } from 'node:stream';

/** What became of the output: whether it could be written for another reason than that nobody reads on. */
export interface OutputWatch {
  readonly failure: () => Error | null;
}

/**
 * Lets a command outlive the reader of its output: one that closes early, as `head` does, wants no more lines, but the
 * files that the command writes are still to be written. Any other failure, such as a full disk, is kept to be told.
 */
export const watchOutput = (output: Writable): OutputWatch => {
  let failure: Error | null = null;
  output.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') failure ??= error;
  });
  return { failure: () => failure };
};

import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';

/**
 * Runs a bundle that has `tringle.planBytes` on a file, in a context that has what JavaScript itself has and the text
 * coders of browsers, and nothing of Node.
 */
export const engineAlone = (bundle: string, file: string): string => {
  const context = createContext({ TextDecoder, TextEncoder, file: new Uint8Array(readFileSync(file)) });
  return runInContext(`${bundle};tringle.planBytes(Uint8Array.from(file))`, context) as string;
};

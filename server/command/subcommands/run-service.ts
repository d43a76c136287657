import { setFlagsFromString } from 'node:v8';
import type { Address } from '../../address.ts';
import { startService } from '../../serve.ts';
import { readSettings } from '../../settings.ts';
import { VERSION } from '../../version.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { resultOfSystemError } from '../system-error.ts';

const untilStopSignal = (): Promise<void> =>
  new Promise((resolve) => {
    const stop = (): void => {
      process.off('SIGINT', stop).off('SIGTERM', stop);
      resolve();
    };
    process.on('SIGINT', stop).on('SIGTERM', stop);
  });

/**
 * JavaScript places what has outlived some quick collections in the heap of the old from the start. What is made for one
 * request is dead by the next, but from there holds all that it leads to until a slow collection.
 */
const placeAllAmongTheYoung = (): void => setFlagsFromString('--no-allocation-site-pretenuring');

/**
 * Runs the service until the process is told to stop, then lets it close; a second signal ends it at once.
 *
 * @param print takes one line for the user
 */
export const runService = async (address: Address, print: (line: string) => void): Promise<CommandResult> => {
  const read = readSettings(process.env);
  if (!read.ok) return { code: EXIT.usage, message: read.wrong.join('; ') };
  placeAllAmongTheYoung();
  // Listened for from here on: a service that is stopped while it starts leaves nothing behind either.
  const told = untilStopSignal();
  try {
    const service = await startService(address, read.settings);
    print(`tringle ${VERSION} listens on ${service.url}`);
    await told;
    const { STOP_SECONDS } = read.settings;
    // A thread in the midst of native code cannot be ended, and holds the process: only a signal ends both.
    setTimeout(() => process.kill(process.pid, 'SIGTERM'), STOP_SECONDS * 1000).unref();
    await service.close();
    return { code: EXIT.done };
  } catch (error) {
    return resultOfSystemError(`cannot listen on ${address.host}, port ${address.port}`, error);
  }
};

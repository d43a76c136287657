import { type Address, DEFAULT_ADDRESS } from '../../address.ts';
import type { Environment, Parsed } from './commands.ts';
import { wrong } from './read-given.ts';

type ReadAddress = { readonly ok: true; readonly value: Address } | Extract<Parsed, { readonly ok: false }>;

/**
 * The address to listen at: options first, then the environment's `PORT` and `HOST`, then port 8017 of this machine alone.
 */
export const readAddress = (values: ReadonlyMap<string, string>, environment: Environment): ReadAddress => {
  const port = values.get('port') ?? environment.PORT ?? `${DEFAULT_ADDRESS.port}`;
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535) {
    return wrong(`“${port}” is not a port: use a number from 0 to 65535`);
  }
  const host = values.get('host') ?? environment.HOST ?? DEFAULT_ADDRESS.host;
  return { ok: true, value: { host, port: Number(port) } };
};

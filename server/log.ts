import { type DestinationStream, type Logger, pino } from 'pino';

/** Errors that systems raise tell in their message what they were given: of these only kind and stack places are logged. */
const describeError = (error: unknown): Readonly<Record<string, unknown>> => {
  if (!(error instanceof Error)) return { type: typeof error };
  const stack = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return { type: error.name, stack: stack.map((line) => line.trim()).slice(0, 20) };
};

/**
 * The log of the service: a JSON object a line. Nothing of a score goes into it, not even by way of an error's message,
 * which may quote what it stumbled over.
 */
export const createLog = (level: string, to: DestinationStream): Logger => {
  const options = {
    level,
    base: null,
    timestamp: pino.stdTimeFunctions.isoTime,
    serializers: { err: describeError },
  };
  return pino(options, to);
};

import { availableParallelism, tmpdir } from 'node:os';
import * as z from 'zod';

/** How one setting is read from the environment. */
interface Setting<T> {
  readonly schema: z.ZodType<T>;
  readonly otherwise: T;
  readonly meaning: string;
}

const setting = <T>(schema: z.ZodType<T>, otherwise: T, meaning: string): Setting<T> => ({
  schema,
  otherwise,
  meaning,
});

const whole = (least: number, most: number) =>
  z
    .string()
    .regex(/^\d{1,9}$/, 'it must be a whole number')
    .transform(Number)
    .pipe(z.int().min(least).max(most));

/** More threads than this need more memory (about 0.4 GB each at 1,000 bars) than a small machine has. */
const MOST_THREADS = 4;

const KEY = /^[\x21-\x2b\x2d-\x7e]{16,200}$/;

const keys: z.ZodType<readonly string[]> = z
  .string()
  .transform((text) => text.split(','))
  .pipe(
    z.array(z.string().regex(KEY, 'it must be keys of 16 to 200 printable characters, separated by commas')),
  );

/** Everything that the environment can set. The address is read by the command line, which can override it. */
const SETTINGS = {
  THREADS: setting(
    whole(1, 64),
    Math.min(MOST_THREADS, availableParallelism()),
    'how many scores are drawn at once; each takes about 0.4 GB of memory',
  ),
  QUEUE: setting(whole(0, 10_000), 16, 'how many requests may wait their turn; any more get status 503'),
  TIME_LIMIT_SECONDS: setting(whole(1, 3600), 60, 'the longest that one score may take, in seconds'),
  // More than twice the 424 MB measured for a score of 1,000 bars, where the memory of the layout engine is counted too.
  HEAP_LIMIT_MB: setting(whole(64, 65_536), 1024, 'memory (heap) of one thread, in MB'),
  UPLOAD_LIMIT_BYTES: setting(whole(1, 500_000_000), 50_000_000, 'the largest upload, in bytes'),
  UPLOADS_LIMIT_BYTES: setting(
    whole(1, 999_999_999),
    400_000_000,
    'the most that all uploads at one time may hold, in bytes',
  ),
  UPLOAD_SECONDS: setting(whole(1, 3600), 60, 'how long a request may take to arrive, in seconds'),
  // Containers are usually killed 10 seconds after they are told to stop.
  STOP_SECONDS: setting(whole(1, 3600), 8, 'how long the service may take to stop; then work is given up'),
  JOBS: setting(whole(1, 100_000), 100, 'how many jobs may wait; any more get status 503'),
  JOB_LIMIT_SECONDS: setting(
    whole(1, 86_400),
    1800,
    'the longest that one job may be worked on; its scores that come later fail',
  ),
  JOB_FILES: setting(
    whole(1, 10_000),
    500,
    'the most scores of one job, the tunes of a tune book counted each',
  ),
  // A timer of Node waits for 24 days at most.
  JOB_KEEP_MINUTES: setting(whole(1, 30_000), 60, 'how long results of jobs are kept, in minutes'),
  JOB_FOLDER: setting(z.string().min(1), tmpdir(), 'the folder for results of jobs, if Redis is not used'),
  JOB_LOCK_SECONDS: setting(
    whole(1, 3600),
    30,
    'with Redis: after how many silent seconds a job goes to another machine',
  ),
  REDIS_URL: setting<string | null>(
    z.string().regex(/^rediss?:\/\/\S+$/, 'it must be a redis: or rediss: address'),
    null,
    'the Redis through which several machines share jobs; without it this process does them all',
  ),
  API_KEYS: setting<readonly string[]>(
    keys,
    [],
    'keys for /v1, separated by commas; without any, /v1 is open to all',
  ),
  RATE_LIMIT_PER_MINUTE: setting(
    whole(0, 1_000_000),
    0,
    'the most requests a minute from one client; 0 for no limit',
  ),
  TRUSTED_PROXIES: setting(whole(0, 10), 0, 'how many trusted proxies stand in front of the service'),
  LOG_LEVEL: setting(
    z.enum(['silent', 'error', 'warn', 'info', 'debug']),
    'info' as 'silent' | 'error' | 'warn' | 'info' | 'debug',
    'how much is logged: silent, error, warn, info or debug',
  ),
} as const;

type SettingName = keyof typeof SETTINGS;

export type Settings = { readonly [Name in SettingName]: (typeof SETTINGS)[Name]['otherwise'] };

/**
 * Reads the settings of the service from the environment.
 *
 * @returns the settings, or a sentence for each that is wrong
 */
export const readSettings = (
  environment: Readonly<Record<string, string | undefined>>,
):
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly wrong: readonly string[] } => {
  const wrong: string[] = [];
  const settings = Object.entries<Setting<unknown>>(SETTINGS).map(([name, { schema, otherwise }]) => {
    const text = environment[name];
    if (text === undefined || text === '') return [name, otherwise];
    const read = schema.safeParse(text);
    if (!read.success) {
      // The value is not repeated: it may be a key.
      wrong.push(`${name} cannot be used: ${read.error.issues[0]!.message.toLowerCase()}`);
    }
    return [name, read.data];
  });
  return wrong.length > 0
    ? { ok: false, wrong }
    : { ok: true, settings: Object.fromEntries(settings) as unknown as Settings };
};

/** The settings as lines for the help text. */
export const describeSettings = (): readonly string[] =>
  Object.entries<Setting<unknown>>(SETTINGS).map(([name, { otherwise, meaning }]) => {
    const shown = Array.isArray(otherwise) || otherwise === null ? '' : ` (${String(otherwise)})`;
    return `${name.padEnd(22)} ${meaning}${shown}`;
  });

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pass } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { unpackScore } from '../../engine/score/file/container.ts';
import { openScore } from '../../engine/score/open.ts';
import { problemsByStatus } from '../../server/api/endpoints/endpoint-problems.ts';
import { ENDPOINTS } from '../../server/api/endpoints/endpoints.ts';
import { mutantRandom, mutate } from './mutate.ts';

export interface FuzzSettings {
  readonly url: string;
  readonly seed: number;
  readonly count: number;
  /** Requests under way at a time. */
  readonly lanes: number;
  /** No request may take longer. */
  readonly limitMs: number;
  /** No more are begun after this. */
  readonly until?: AbortSignal;
}

export interface FuzzResult {
  /** How many were tried. */
  readonly tried: number;
  /** How many answers had each status. */
  readonly statuses: Readonly<Record<string, number>>;
  /** How many answers were of each type of problem. */
  readonly problems: Readonly<Record<string, number>>;
  readonly slowestMs: number;
  /** What should not have been: which mutant, and why. */
  readonly failures: readonly string[];
}

/** Scores by others, outside the repository; where they are absent the demo alone is changed. */
const CORPUS = fileURLToPath(new URL('../../../shared/scores', import.meta.url));

/** Larger ones take their time in all forms; what is large is told by other tests. */
const LARGEST_BYTES = 400_000;

const demo = (ending: string): Uint8Array =>
  readFileSync(new URL(`../../server/demo/lanterns-at-the-lock.${ending}`, import.meta.url));

/** A file that is changed, and the part to ask for where none is taken for a harp. */
export interface Seed {
  readonly bytes: Uint8Array;
  readonly part: string | null;
}

/** The part with most notes where the reader asks for a choice; null where it finds the harp. */
const partOf = (bytes: Uint8Array): string | null => {
  const opened = openScore(bytes);
  if (opened.ok || opened.problem.code !== 'harp-not-found') return null;
  const [first] = [...opened.problem.parts].sort((a, b) => b.notes - a.notes);
  return first?.id ?? null;
};

/** Small compressed scores are changed as they are too, where a change mostly breaks the archive; all are unpacked. */
const unpackedToo = (bytes: Uint8Array): readonly Uint8Array[] => {
  const unpacked = unpackScore(bytes);
  if (!unpacked.ok || unpacked.value.archivePath === null) return [bytes];
  return bytes.length < 12_000 ? [bytes, unpacked.value.bytes] : [unpacked.value.bytes];
};

export const listSeeds = (): readonly Seed[] => {
  const paths = existsSync(CORPUS) ? readdirSync(CORPUS, { recursive: true, encoding: 'utf8' }).sort() : [];
  const files = paths
    .filter((path) => /\.(?:mei|mxl|musicxml|xml)$/.test(path))
    .flatMap((path) => unpackedToo(readFileSync(join(CORPUS, path))))
    .filter((bytes) => bytes.length <= LARGEST_BYTES);
  return [demo('musicxml'), demo('mei'), ...files].map((bytes) => ({ bytes, part: partOf(bytes) }));
};

interface Target {
  readonly path: string;
  readonly accept: string;
  /** How often it is asked, against the others. */
  readonly share: number;
}

/** Drawing takes a hundred times as long as planning: it is asked for less often, so that more files are tried. */
const TARGETS: readonly Target[] = [
  { path: '/v1/plan', accept: 'application/json', share: 50 },
  { path: '/v1/proof', accept: 'application/json', share: 30 },
  {
    path: '/v1/annotate',
    accept: 'application/vnd.recordare.musicxml+xml, application/vnd.recordare.musicxml, application/mei+xml',
    share: 12,
  },
  { path: '/v1/annotate', accept: 'application/pdf', share: 5 },
  { path: '/v1/annotate', accept: 'image/svg+xml', share: 3 },
];

const SHARES = TARGETS.flatMap((target) => Array.from({ length: target.share }, () => target));

/** The statuses that are described for an address; of the service's own faults none will do. */
const describedStatuses = (path: string): ReadonlySet<number> => {
  const endpoint = ENDPOINTS.find((each) => each.path === path);
  if (endpoint === undefined) throw new Error(path);
  const statuses = [...endpoint.answers.map(({ status }) => status), ...problemsByStatus(endpoint).keys()];
  return new Set(statuses.filter((status) => status !== 500));
};

const count = (counts: Record<string, number>, key: string): void => {
  counts[key] = (counts[key] ?? 0) + 1;
};

/** Sends changed scores to a service, and watches how it answers. Mutant `n` of a seed is the same each time. */
export const fuzzService = async (settings: FuzzSettings): Promise<FuzzResult> => {
  const seeds = listSeeds();
  // That held this process for seconds: connections that the service closed meanwhile are let go of first.
  await pass(100);
  const statuses: Record<string, number> = {};
  const problems: Record<string, number> = {};
  const failures: string[] = [];
  let slowestMs = 0;
  let next = 0;
  let tried = 0;

  const tryMutant = async (number: number): Promise<void> => {
    const random = mutantRandom(settings.seed, number);
    const { bytes, part } = seeds[Math.floor(random() * seeds.length)]!;
    const mutant = mutate(bytes, random);
    const { path, accept } = SHARES[Math.floor(random() * SHARES.length)]!;
    const since = performance.now();
    const response = await fetch(
      `${settings.url}${path}${part === null ? '' : `?part=${encodeURIComponent(part)}`}`,
      {
        method: 'POST',
        headers: { 'Content-Type': 'application/octet-stream', Accept: accept },
        body: new Uint8Array(mutant),
        signal: AbortSignal.timeout(settings.limitMs + 10_000),
      },
    );
    const body = await response.text();
    const took = performance.now() - since;
    slowestMs = Math.max(slowestMs, took);
    count(statuses, `${response.status}`);
    const type = response.headers.get('content-type') ?? '';
    if (type === 'application/problem+json') count(problems, JSON.parse(body).type.split(':').at(-1));
    const told = `mutant ${number} to ${path} (${accept.slice(0, 20)}): ${response.status}`;
    if (!describedStatuses(path).has(response.status)) failures.push(`${told} ${body.slice(0, 300)}`);
    if (response.status >= 400 && type !== 'application/problem+json') failures.push(`${told} as ${type}`);
    if (took > settings.limitMs) failures.push(`${told} after ${Math.round(took)} ms`);
  };

  const runLane = async (): Promise<void> => {
    for (let number = next++; number < settings.count && !settings.until?.aborted; number = next++) {
      tried += 1;
      await tryMutant(number).catch((error: unknown) => failures.push(`mutant ${number}: ${String(error)}`));
    }
  };
  await Promise.all(Array.from({ length: settings.lanes }, runLane));
  return { tried, statuses, problems, slowestMs, failures };
};

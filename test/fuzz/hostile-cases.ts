import { strToU8, zipSync } from 'fflate';
import {
  chordOf,
  emptyBars,
  expansionOf,
  glissandiInOneBar,
  longTitle,
  lyricsOn,
  oneNoteBars,
  voices,
} from '../bench/hostile-scores.ts';
import { demoFile } from '../demo-score.ts';
import { asZip64 } from '../engine/score/file/archive-builder.ts';
import { oneIn } from '../thorough.ts';

const DEMO = new Uint8Array(demoFile('lanterns-at-the-lock'));

/** One request that is made to harm. */
interface HostileCase {
  readonly name: string;
  readonly path: string;
  readonly body: Uint8Array | FormData;
}

const scores: readonly (readonly [string, string])[] = [
  ['a chord of 50,000 notes', chordOf(50_000)],
  ['100,000 empty bars', emptyBars(100_000)],
  ['8,000 glissandi in one bar', glissandiInOneBar(8_000)],
  ['20,000 one-note bars', oneNoteBars(20_000)],
  ['an expansion of 100,000 entries', expansionOf(100_000)],
  ['a title of half a million words', longTitle(500_000)],
  ['20,000 lyrics', lyricsOn(20_000)],
  ['1,000 voices', voices(1_000)],
  ['150 voices', voices(150)],
];

const options: readonly (readonly [string, string])[] = [
  ['a name of 1.9 MB', `{"${'x'.repeat(1_900_000)}":1}`],
  ['a name of 290 kB', `{"${'x'.repeat(290_000)}":1}`],
  ['8,000 levels', `{"part":${'['.repeat(8_000)}${']'.repeat(8_000)}}`],
  ['25,000 names', `{${Array.from({ length: 25_000 }, (_, i) => `"a${i}":0`).join(',')}}`],
  ['30,000 empty pins', `{"pins":[${Array.from({ length: 30_000 }, () => '{}').join(',')}]}`],
];

const form = (text: string): FormData => {
  const data = new FormData();
  data.set('score', new Blob([DEMO]), 'part.musicxml');
  data.set('options', text);
  return data;
};

const ADDRESSES = ['/v1/annotate', '/v1/plan', '/v1/proof'];

/** @param all each score to each address; else to one of them in turn, and where tests are not thorough every second one */
export const listHostileCases = (all: boolean): readonly HostileCase[] => [
  ...(all ? scores : oneIn(2, scores)).flatMap(([name, text], i) =>
    (all ? ADDRESSES : [ADDRESSES[i % ADDRESSES.length]!]).map((path) => ({
      name,
      path,
      body: strToU8(text),
    })),
  ),
  ...options.map(([name, text]) => ({ name, path: '/v1/plan', body: form(text) })),
  { name: 'a ZIP64 archive', path: '/v1/plan', body: asZip64(zipSync({ 'a.musicxml': DEMO })) },
  {
    name: 'a ZIP64 archive of too many',
    path: '/v1/plan',
    body: asZip64(
      zipSync(Object.fromEntries(Array.from({ length: 1_001 }, (_, i) => [`${i}.xml`, new Uint8Array()]))),
    ),
  },
];

export interface HostileResult {
  /** `name to path: status after milliseconds`. */
  readonly answers: readonly string[];
  readonly failures: readonly string[];
}

/** Sends every case; only 503 and 504 may tell of trouble of the service's own. */
export const sendHostileCases = async (url: string, all: boolean): Promise<HostileResult> => {
  const answers: string[] = [];
  const failures: string[] = [];
  for (const { name, path, body } of listHostileCases(all)) {
    const since = performance.now();
    const response = await fetch(`${url}${path}`, {
      method: 'POST',
      body: body instanceof FormData ? body : new Uint8Array(body),
      ...(body instanceof FormData ? {} : { headers: { 'Content-Type': 'application/octet-stream' } }),
    });
    const text = await response.text();
    const told = `${name} to ${path}: ${response.status} after ${Math.round(performance.now() - since)} ms`;
    answers.push(told);
    const { status } = response;
    if (status >= 500 && status !== 503 && status !== 504) failures.push(`${told} ${text.slice(0, 300)}`);
    if (status >= 400 && text.length > 20_000) failures.push(`${told}, with ${text.length} characters`);
  }
  return { answers, failures };
};

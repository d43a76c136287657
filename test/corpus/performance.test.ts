import { VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { beforeAll, describe, expect, it } from 'vitest';
import { settingFrom } from '../../engine/harp/setting.ts';
import { rational, rationalKey } from '../../engine/music/rational.ts';
import { buildPlayback } from '../../engine/performance/build-playback.ts';
import { performPart, soundsOf } from '../../engine/performance/perform-part.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import type { TempoMark } from '../../engine/score/model/tempo.ts';
import { openScore } from '../../engine/score/open.ts';
import { isThorough } from '../thorough.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';
import { withNoteIds } from './oracle.ts';

/** Takes minutes in Verovio. */
const LARGE: readonly string[] = ["openscore-orchestra/D'un_matin_de_printemps.mxl", 'mx/freezing.xml'];

const PATIENCE_MS = 300_000;

/** Verovio's times are whole milliseconds. */
const NEAR_SECONDS = 0.002;

/** Lengths of notes contradict each other in it, and Verovio goes by others than we: see `reading-differences.md`. */
const CONTRADICTORY = 'openscore-lieder/lc5060972.mxl';

let toolkit: VerovioToolkit;

beforeAll(async () => {
  if (hasScores) toolkit = new VerovioToolkit(await createVerovioModule());
}, PATIENCE_MS);

/** Onsets in seconds from the bar's start by note id, one for each time a note is played; and when each bar begins. */
interface Heard {
  readonly onsets: ReadonlyMap<string, readonly number[]>;
  readonly bars: readonly number[];
}

const gather = (found: Iterable<readonly [string, number]>): Heard['onsets'] => {
  const onsets = new Map<string, number[]>();
  for (const [id, seconds] of found) onsets.set(id, [...(onsets.get(id) ?? []), seconds]);
  return onsets;
};

/** What Verovio plays: a note that is repeated has an id with an ending of its own each time. */
const heardByVerovio = (score: Score): Heard & { readonly tempo: readonly TempoMark[] } => {
  toolkit.resetOptions();
  toolkit.setOptions({
    breaks: 'none',
    header: 'none',
    footer: 'none',
    xmlIdChecksum: true,
    inputFrom: 'xml',
  });
  if (!toolkit.loadData(withNoteIds(score.source))) throw new Error('Verovio cannot load the score');
  const events = toolkit.renderToTimemap({ includeMeasures: true });
  const bars: number[] = [];
  const onsets: [string, number][] = [];
  for (const { measureOn, on, tstamp } of events) {
    if (measureOn !== undefined) bars.push(tstamp / 1000);
    for (const id of on ?? []) onsets.push([id.replace(/-rend\d+$/, ''), tstamp / 1000 - bars.at(-1)!]);
  }
  const tempo = events.flatMap((event) =>
    event.tempo === undefined ? [] : [markOf(event.qstamp, event.tempo)],
  );
  return { onsets: gather(onsets), bars, tempo: [VEROVIO_TEMPO, ...tempo] };
};

const markOf = (quarters: number, quartersPerMinute: number): TempoMark => ({
  at: rational(Math.round(quarters * 1024), 1024),
  quartersPerMinute,
  origin: 'sound',
});

/** What Verovio takes for granted until a tempo is stated. */
const VEROVIO_TEMPO = markOf(0, 120);

/**
 * Where the score is played straight on, by Verovio's tempi: it takes another for granted where none is stated, and
 * reads some signs otherwise. What is compared is when notes come at given tempi.
 */
const atTempoOf = (score: Score, tempo: readonly TempoMark[]): Score =>
  score.playOrder.length === score.bars.length ? { ...score, tempo } : score;

const heardByUs = (score: Score): Heard => {
  // Plucked notes sound as written, however the pedals stand.
  const performance = performPart(buildPlayback(score), { initial: settingFrom(() => 0), moves: [] });
  const onsets = performance.bars.flatMap((bar, i) =>
    soundsOf(performance, i)
      .plucks.filter(({ kind }) => kind === 'plucked')
      .map(({ note, at }) => [note, at - bar.at] as const),
  );
  return { onsets: gather(onsets), bars: performance.bars.map(({ at }) => at) };
};

/** Whether two lists of times are the same but for Verovio's whole milliseconds. */
const areNear = (ours: readonly number[], theirs: readonly number[]): boolean =>
  ours.length === theirs.length && ours.every((seconds, i) => Math.abs(seconds - theirs[i]!) < NEAR_SECONDS);

/** Notes that are played at their onset and once: the others have no one right time. */
const plainNotes = (score: Score): readonly Note[] => {
  const graced = new Set(
    score.notes.filter(({ grace }) => grace !== null).map(({ onset }) => rationalKey(onset)),
  );
  return score.notes.filter(
    ({ role, tiedFrom, grace, arpeggio, tremolo, ornament, onset }) =>
      role === 'played' &&
      [tiedFrom, grace, arpeggio, tremolo, ornament].every((each) => each === null) &&
      !graced.has(rationalKey(onset)),
  );
};

const scores = HARP_SCORES.filter(
  ({ file }) => file !== CONTRADICTORY && (isThorough || !LARGE.includes(file)),
);

describe.skipIf(!hasScores)('what is played (skipped where the corpus is absent)', () => {
  it.each(scores)('$file is played when Verovio plays it', { timeout: PATIENCE_MS }, ({ file, part }) => {
    const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
    if (!opened.ok) throw new Error(opened.problem.code);
    const theirs = heardByVerovio(opened.value);
    const score = atTempoOf(opened.value, theirs.tempo);
    const ours = heardByUs(score);
    const plain = plainNotes(score);
    const otherwise = plain.flatMap(({ id }) => {
      const [mine, other] = [ours.onsets.get(id) ?? [], theirs.onsets.get(id) ?? []];
      return areNear(mine, other) ? [] : [`${id}: at ${mine}, in Verovio at ${other}`];
    });
    expect(plain.length).toBeGreaterThan(50);
    expect(otherwise).toEqual([]);
    expect(areNear(ours.bars, theirs.bars), 'bars begin together').toBe(true);
  });
});

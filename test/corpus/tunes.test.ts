import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Parse from 'abcjs/src/parse/abc_parse.js';
import { VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { beforeAll, describe, expect, it } from 'vitest';
import { midiOf } from '../../engine/music/pitch.ts';
import { add, subtract, toNumber, ZERO } from '../../engine/music/rational.ts';
import { type BookTune, readTuneBook } from '../../engine/score/abc/book/tune-book.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScoreFile } from '../../engine/score/open-file.ts';
import { isThorough } from '../thorough.ts';
import { CORPUS } from './corpus-files.ts';

const TUNES = join(CORPUS, 'tunes');
const isThere = existsSync(TUNES);

interface ReadTune {
  readonly name: string;
  readonly tune: BookTune;
  readonly score: Score;
}

/** Latin-1 reads any bytes; the oracles look at notes alone. */
const readAll = async (): Promise<readonly ReadTune[]> => {
  const read: ReadTune[] = [];
  for (const file of readdirSync(TUNES)) {
    const bytes = readFileSync(join(TUNES, file));
    const book = readTuneBook(bytes.toString('latin1'));
    if (!book.ok) throw new Error(file);
    for (const tune of book.value.tunes) {
      const score = await openScoreFile(bytes, { tune: tune.number });
      if (!score.ok) throw new Error(`${file} ${tune.number}: ${score.problem.code}`);
      read.push({ name: `${file} ${tune.number}`, tune, score: score.value });
    }
  }
  return read;
};

/** Fields of these files that the oracles take for music. */
const textOf = ({ lines }: BookTune): string =>
  `${lines.filter((line) => !/^[NQRSYZ]:/.test(line)).join('\n')}\n`;

const isHead = (note: Note): boolean => note.grace === null && note.tiedFrom === null;

/** What sounds in the order of play: quarter notes and MIDI keys. */
const played = ({ bars, notes, playOrder }: Score): readonly string[] => {
  let at = ZERO;
  const sounds: { at: number; key: number }[] = [];
  for (const index of playOrder) {
    const bar = bars[index]!;
    for (const note of notes)
      if (note.bar === index && isHead(note))
        sounds.push({ at: toNumber(add(at, subtract(note.onset, bar.onset))), key: midiOf(note.pitch) });
    at = add(at, bar.duration);
  }
  return inOrder(sounds);
};

const inOrder = (sounds: readonly { readonly at: number; readonly key: number }[]): readonly string[] =>
  sounds.toSorted((a, b) => a.at - b.at || a.key - b.key).map(({ at, key }) => `${at.toFixed(2)} ${key}`);

interface MidiEvent {
  readonly cmd: string;
  readonly style?: string;
  readonly start: number;
  readonly pitch: number;
}

/** What the parser's own playback sounds, without the chords it adds. */
const playedByParser = (tune: BookTune): readonly string[] => {
  const parser = new Parse();
  parser.parse(textOf(tune), {});
  const parsed = parser.getTune() as {
    setUpAudio: (options: object) => { readonly tracks: readonly (readonly MidiEvent[])[] };
  };
  const events = parsed.setUpAudio({ chordsOff: true }).tracks.flat();
  return inOrder(
    events
      .filter(({ cmd, style }) => cmd === 'note' && style !== 'grace')
      .map(({ start, pitch }) => ({ at: 4 * start, key: pitch })),
  );
};

/**
 * Tunes whose repeats the parser's playback takes otherwise: in most a pickup is closed by `|: || |:`, or it plays the
 * part before a `:|` again from an earlier sign; we go back to the last `|:` or `:|`.
 */
const OTHER_REPEATS: readonly string[] = [
  'ashover.abc 5',
  'ashover.abc 6',
  'ashover.abc 10',
  'ashover.abc 12',
  'morris.abc 2',
  'reelsa-c.abc 9',
  'slip.abc 4',
];

/** Every eighth tune, or all: after each that its reader does not survive, that has to be started anew. */
const READ_BY_VEROVIO = isThorough ? 1 : 8;

describe.skipIf(!isThere)('221 tunes of five books (skipped where they are absent)', () => {
  let all: readonly ReadTune[] = [];
  beforeAll(async () => {
    all = await readAll();
  });

  it('are read, each with its title and no more lost than is told', () => {
    expect(all).toHaveLength(221);
    expect(all.filter(({ tune, score }) => score.titles.title !== tune.title)).toEqual([]);
    const lost = all.flatMap(({ score }) => score.remarks.filter(({ code }) => code === 'skipped'));
    expect(lost.length).toBeLessThanOrEqual(8);
  });

  it('sound as the parser plays them, but for repeats that it takes otherwise', () => {
    const differing = all.filter(({ tune, score }) => played(score).join() !== playedByParser(tune).join());
    expect(differing.map(({ name }) => name)).toEqual(OTHER_REPEATS);
  });

  it('have the notes of a reader that shares no code, wherever that survives', async () => {
    let toolkit = new VerovioToolkit(await createVerovioModule());
    let survived = 0;
    const differing: string[] = [];
    const chosen = all.filter((_, i) => i % READ_BY_VEROVIO === 0);
    for (const { name, tune, score } of chosen) {
      try {
        toolkit.setOptions({ inputFrom: 'abc', breaks: 'none' });
        if (toolkit.loadData(textOf(tune)) === 0) continue;
        const heads = [...toolkit.getMEI({}).matchAll(/<note [^>]*>/g)].map(([head]) => head);
        const theirs = heads
          .filter((head) => !head.includes('grace='))
          .map((head) => `${/pname="(.)"/.exec(head)![1]}${/oct="(\d)"/.exec(head)![1]}`);
        survived += 1;
        const ours = score.notes
          .filter(({ grace }) => grace === null)
          .map(({ pitch }) => `${pitch.letter.toLowerCase()}${pitch.octave}`);
        if (ours.join() !== theirs.join()) differing.push(name);
      } catch {
        // Its reader ends in an exception of its module on some: a new one reads the next.
        toolkit = new VerovioToolkit(await createVerovioModule());
      }
    }
    expect(survived).toBeGreaterThan(0.75 * chosen.length);
    // A chord that it reads in the order of the file.
    expect(differing.filter((name) => name !== 'ashover.abc 15')).toEqual([]);
  }, 240_000);
});

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LEVER_HARP } from '../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../engine/levers/options.ts';
import { planLevers } from '../../engine/levers/plan.ts';
import { listTunes } from '../../engine/score/abc/book/list-tunes.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScoreFile } from '../../engine/score/open-file.ts';
import { readAbc, tune } from '../engine/score/abc/abc-builder.ts';
import { FEATURES } from '../engine/score/abc/features.ts';
import { isThorough } from '../thorough.ts';
import { CORPUS } from './corpus-files.ts';
import { canValidate, schemaErrorsOfEach } from './schema-errors.ts';

const TUNES = join(CORPUS, 'tunes');

/** Every fourth tune of a book, or all. What tunes are made of is tried feature by feature below. */
const EVERY = isThorough ? 1 : 4;

/** What a player reads, without the places in the text. */
const readingOf = ({ bars, notes, rests, phrases, playOrder, titles, tempo, landmarks }: Score) => ({
  bars: bars.map(({ span: _, id: __, ...bar }) => bar),
  notes: notes.map(({ span: _, voice: __, chord: ___, beam, stem: ____, ...note }) => ({
    ...note,
    beamed: beam !== null,
  })),
  rests: rests.map(({ bar, staff, onset, duration }) => ({ bar, staff, onset, duration })),
  phrases,
  playOrder,
  titles,
  tempo: tempo.map(({ at, quartersPerMinute }) => ({ at, quartersPerMinute })),
  landmarks,
});

const openBoth = async (bytes: Uint8Array, tune: string): Promise<readonly [Score, Score]> => {
  const mei = await openScoreFile(bytes, { tune });
  const musicXml = await openScoreFile(bytes, { tune, tuneFormat: 'musicxml' });
  if (!mei.ok || !musicXml.ok) throw new Error(`tune ${tune} is not read`);
  return [mei.value, musicXml.value];
};

describe.skipIf(!existsSync(TUNES))(
  'tunes written as MusicXML (skipped where ../shared/scores is absent)',
  () => {
    it('are read back as they are from MEI, with the same plan, and follow the schema', async () => {
      const sources: Score['source'][] = [];
      for (const file of readdirSync(TUNES)) {
        const bytes = new Uint8Array(readFileSync(join(TUNES, file)));
        const listed = listTunes(bytes);
        if (!listed.ok || listed.value === null) throw new Error(file);
        for (const [index, { number }] of listed.value.entries()) {
          if (index % EVERY !== 0) continue;
          const [mei, musicXml] = await openBoth(bytes, number);
          expect(musicXml.source.format, `${file} ${number}`).toBe('musicxml-partwise');
          expect(readingOf(musicXml), `${file} ${number}`).toEqual(readingOf(mei));
          // Of the small books, since plans follow from what was just compared.
          if (listed.value.length < 20) {
            const options = { ...DEFAULT_LEVER_OPTIONS, profile: LEVER_HARP };
            expect(planLevers(musicXml, options).moves).toEqual(planLevers(mei, options).moves);
          }
          sources.push(musicXml.source);
        }
      }
      expect(sources).toHaveLength(isThorough ? 221 : 57);
      if (canValidate) expect(schemaErrorsOfEach(sources).flat()).toEqual([]);
    }, 120_000);
  },
);

it.skipIf(!canValidate)('every feature of ABC is written as the schema of MusicXML wants it', async () => {
  const sources: Score['source'][] = [];
  for (const [, music] of FEATURES)
    sources.push((await readAbc(tune(music), { tuneFormat: 'musicxml' })).source);
  expect(schemaErrorsOfEach(sources).flat()).toEqual([]);
});

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listTunes } from '../../engine/score/abc/book/list-tunes.ts';
import { openScoreFile } from '../../engine/score/open-file.ts';
import { leverAlarms } from '../lever-alarms.ts';
import { isThorough } from '../thorough.ts';
import { CORPUS } from './corpus-files.ts';

const TUNES = join(CORPUS, 'tunes');

/** Every tenth tune of a book, or all. */
const EVERY = isThorough ? 1 : 10;

describe.skipIf(!existsSync(TUNES))(
  'tunes annotated for the lever harp (skipped where ../shared/scores is absent)',
  () => {
    it('give no false alarm, written as MEI or MusicXML, in either look', { timeout: 600_000 }, async () => {
      let read = 0;
      const alarms: string[] = [];
      for (const file of readdirSync(TUNES)) {
        const bytes = new Uint8Array(readFileSync(join(TUNES, file)));
        const listed = listTunes(bytes);
        if (!listed.ok || listed.value === null) throw new Error(file);
        for (const [index, { number }] of listed.value.entries()) {
          if (index % EVERY !== 0) continue;
          const tuneFormat = read % 2 === 0 ? ('mei' as const) : ('musicxml' as const);
          const opened = await openScoreFile(bytes, { tune: number, tuneFormat });
          if (!opened.ok) throw new Error(`${file} ${number}`);
          read += 1;
          const look = read % 3 === 0 ? ({ leverLook: 'notes' } as const) : {};
          for (const { barNumber, sentence } of leverAlarms(opened.value, look))
            alarms.push(`${file} ${number} bar ${barNumber}: ${sentence}`);
        }
      }
      expect(read).toBe(isThorough ? 221 : 26);
      expect(alarms).toEqual([]);
    });
  },
);

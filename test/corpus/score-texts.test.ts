import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { startDrawer } from '../../render/layout/drawer/drawer.ts';
import { isThorough, oneIn } from '../thorough.ts';
import { corpusFiles, readCorpusFile } from './corpus-files.ts';
import { hasScores } from './harp-scores.ts';
import { SURVEYED, textsOverFirstStaff } from './text-survey.ts';
import { reasonFor, surveyAll, type TextRow, writeTextTable } from './text-table.ts';

/** One in four where tests are not thorough: Verovio lays each of them out twice. */
const CHOSEN = oneIn(4, SURVEYED);

describe.skipIf(!hasScores)('text over the first staff of 34 real scores (../shared/scores)', () => {
  let rows: readonly TextRow[] = [];
  beforeAll(async () => {
    rows = surveyAll(await startDrawer(), CHOSEN);
  }, 120_000);

  it('is printed in the part, or left out for a reason that is known', () => {
    const lost = rows.flatMap(({ file, texts }) =>
      typeof texts === 'string'
        ? [`${file}: ${texts}`]
        : texts
            .filter(({ printed, text }) => !printed && reasonFor(text) === null)
            .map(({ bar, text }) => `${file}, bar ${bar + 1}: ${text}`),
    );
    const scores = new Set(rows.map(({ file, movement }) => `${file} ${movement ?? ''}`));
    expect(scores.size).toBe(CHOSEN.length);
    expect(lost).toEqual([]);
  });

  it('is in no other score of the folder', () => {
    const surveyed = new Set(SURVEYED.map(({ file }) => file));
    const others = corpusFiles().filter((file) => !surveyed.has(file));
    const texts = others.flatMap((file) => {
      const parsed = readCorpusFile(file);
      return parsed === null ? [] : textsOverFirstStaff(parsed).map(({ text }) => `${file}: ${text}`);
    });
    expect(texts).toEqual([]);
  });

  it('is tabulated as it is', () => {
    const table = readFileSync(new URL('./score-texts.md', import.meta.url), 'utf8');
    for (const line of writeTextTable(rows).split('\n')) expect(table).toContain(line);
    if (isThorough) expect(table).toBe(writeTextTable(rows));
  });
});

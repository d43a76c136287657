import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { startDrawer } from '../../render/layout/drawer/drawer.ts';
import { corpusFiles, readCorpusFile } from './corpus-files.ts';
import { hasScores } from './harp-scores.ts';
import { textsOverFirstStaff } from './text-survey.ts';
import { reasonFor, surveyAll, type TextRow, writeTextTable } from './text-table.ts';

describe.skipIf(!hasScores)('text over the first staff of 34 real scores (../shared/scores)', () => {
  let rows: readonly TextRow[] = [];
  beforeAll(async () => {
    rows = surveyAll(await startDrawer());
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
    expect(scores.size).toBe(34);
    expect(lost).toEqual([]);
  });

  it('is in no other score of the folder', () => {
    const surveyed = new Set(rows.map(({ file }) => file));
    const others = corpusFiles().filter((file) => !surveyed.has(file));
    const texts = others.flatMap((file) => {
      const parsed = readCorpusFile(file);
      return parsed === null ? [] : textsOverFirstStaff(parsed).map(({ text }) => `${file}: ${text}`);
    });
    expect(texts).toEqual([]);
  });

  it('is tabulated as it is', () => {
    expect(readFileSync(new URL('./score-texts.md', import.meta.url), 'utf8')).toBe(writeTextTable(rows));
  });
});

/**
 * Writes `score-texts.md`: what text stands over the first staff of real scores, and whether a part printed from each has it.
 * Run: npx tsx test/corpus/write-text-table.ts
 */
import { writeFileSync } from 'node:fs';
import { startDrawer } from '../../render/layout/drawer/drawer.ts';
import { hasScores } from './harp-scores.ts';
import { surveyAll, writeTextTable } from './text-table.ts';

const write = async (): Promise<void> => {
  const text = writeTextTable(surveyAll(await startDrawer()));
  writeFileSync(new URL('./score-texts.md', import.meta.url), text);
  console.log(text);
};

if (hasScores) void write();
else console.log('../shared/scores is absent: nothing to tabulate');

/**
 * Writes `difficulty.md`: real pieces in the order of how hard the engine says they are.
 * Run: npx tsx test/corpus/write-difficulty-table.ts
 */
import { writeFileSync } from 'node:fs';
import { gradeAll, writeDifficultyTable } from './difficulty-table.ts';
import { hasScores } from './harp-scores.ts';

const write = async (): Promise<void> => {
  const text = writeDifficultyTable(await gradeAll());
  writeFileSync(new URL('./difficulty.md', import.meta.url), text);
  console.log(text);
};

if (hasScores) void write();
else console.log('../shared/scores is absent: nothing to tabulate');

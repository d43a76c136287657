import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { gradeAll, writeDifficultyTable } from './difficulty-table.ts';
import { hasScores } from './harp-scores.ts';

describe.skipIf(!hasScores)('how hard 27 real pieces are (../shared/scores)', () => {
  it('is tabulated as it is', async () => {
    const rows = await gradeAll();
    expect(rows).toHaveLength(27);
    expect(readFileSync(new URL('./difficulty.md', import.meta.url), 'utf8')).toBe(
      writeDifficultyTable(rows),
    );
  }, 60_000);
});

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { rateTunes } from '../../../server/command/subcommands/rate-tunes.ts';

const BOOK = `X:1
T:Up the Lane
M:2/4
L:1/8
K:G
GABd|F2G2|]

X:2
T:=Down, the Lane
M:2/4
L:1/8
K:Eb
EGAB|A2E2|]

X:3
T:Across
M:2/4
L:1/8
K:D
FABd|F2D2|]
`;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'tunes-'));
  writeFileSync(join(folder, 'book.abc'), BOOK);
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = async (...words: readonly string[]) => {
  const parsed = readArguments(
    ['tunes', join(folder, 'book.abc'), '--instrument', 'lever-harp-34', ...words],
    {},
  );
  if (!parsed.ok || parsed.command.kind !== 'tunes') return { lines: [], result: parsed };
  const lines: string[] = [];
  const result = await rateTunes(parsed.command, (line) => lines.push(line));
  return { lines, result };
};

describe('the table of a tune book', () => {
  it('tells of each tune the tuning, the levers before the start and the changes', async () => {
    const { lines } = await run('--json');
    const { tunes } = JSON.parse(lines.join('\n'));
    expect(tunes).toHaveLength(3);
    expect(tunes[0]).toMatchObject({
      number: '1',
      title: 'Up the Lane',
      tuning: 'E♭ major',
      retuned: [],
      leversUp: ['F♯4', 'A♮4', 'B♮4'],
      changes: 0,
      playable: true,
    });
  });

  it('is sorted, and a spreadsheet takes no title for a formula', async () => {
    const { lines } = await run('--csv', '--sort', 'title');
    expect(lines[0]).toMatch(/^file,no\.,title/);
    expect(lines.slice(1).map((line) => line.split(',').slice(1, 3).join(' '))).toEqual([
      `2 "'=Down`,
      '3 Across',
      '1 Up the Lane',
    ]);
  });

  it('puts a set in the order of the fewest changes, and says what to set in each break', async () => {
    const { lines } = await run('--set');
    expect(lines.map((line) => line.replace(/\(.*\)/, '').trim())).toEqual([
      '1. 1 Up the Lane',
      '2. 3 Across',
      '3. 2 =Down, the Lane',
      '2 lever changes between the tunes: no order needs fewer.',
    ]);
  });

  it('is printed as a set: the tunes in their order, and what is set before each', async () => {
    const path = join(folder, 'set.pdf');
    expect((await run('--set', '-o', path)).result).toMatchObject({ code: 0 });
    expect(readFileSync(path).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('refuses an order or a tune that there is none of', async () => {
    expect((await run('--sort', 'colour')).result).toMatchObject({ ok: false });
    expect((await run('--only', '9')).result).toMatchObject({ code: 2, message: 'there is no tune 9' });
  });
});

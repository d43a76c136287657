import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { tellDivision } from '../../../server/command/subcommands/divide-answer.ts';
import { divideFile } from '../../../server/command/subcommands/divide-file.ts';
import { fixesOfFile } from '../../../server/command/subcommands/fixes-file.ts';
import { FERRY_BELLS } from '../../two-harps.ts';

/** Six moves of the right foot in a bar that has no time for them. */
const HURRIED = `X:1
T:Hurried
M:4/4
L:1/8
Q:1/4=200
K:C
EFGA_E^F^G_A|=E8|]
`;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fixes-'));
  writeFileSync(join(folder, 'hurried.abc'), HURRIED);
});
afterAll(() => rmSync(folder, { recursive: true }));

/** What a command prints of the file. */
const linesOf = (name: 'fixes' | 'divide', ...words: readonly string[]): Promise<string[]> =>
  linesFor(name, 'hurried.abc', ...words);

const linesFor = async (
  name: 'fixes' | 'divide',
  file: string,
  ...words: readonly string[]
): Promise<string[]> => {
  const parsed = readArguments([name, join(folder, file), ...words], {});
  if (!parsed.ok) throw new Error(JSON.stringify(parsed));
  const lines: string[] = [];
  const print = (line: string): void => {
    lines.push(line);
  };
  const { command } = parsed;
  if (command.kind === 'fixes') await fixesOfFile(command, print);
  else if (command.kind === 'divide') {
    const { output, ...rest } = command;
    if (output === null) await tellDivision(rest, print);
    else await divideFile({ ...rest, ...output }, print);
  }
  return lines;
};

describe('the command that lists fixes', () => {
  it('says which of several harps it has looked at', async () => {
    writeFileSync(join(folder, 'bells.musicxml'), FERRY_BELLS);
    expect(await linesFor('fixes', 'bells.musicxml')).toContainEqual(
      expect.stringMatching(/^remark: Harp I is the harp used here\. The score also has Harp II/),
    );
  });

  it('says by which tempo its table counts', async () => {
    const lines = await linesOf('fixes', '--instrument', 'concert-harp');
    const head = lines.indexOf(
      'Places not playable, by the first tempo of the part; its other tempos are slowed alike:',
    );
    expect(lines[head - 1]).toMatch(
      /^Playable up to ♩ = \d+; written 200\.(?: Warnings are left: .+ \(bars? .+\)\.)?$/,
    );
    expect(lines[head + 1]).toMatch(/^ {2}♩ = \d+: \d+/);
  });
});

describe('the command that divides a part', () => {
  it('without a folder tells the least for the second harp and how each part goes, and how to get them', async () => {
    const lines = await linesOf('divide', '--instrument', 'concert-harp');
    expect(lines).toContainEqual(expect.stringMatching(/second harp/));
    expect(lines).toContainEqual(expect.stringMatching(/^Divided between two players: \d+ notes/));
    expect(lines.at(-1)).toBe('With --out-dir DIR you get a part for each player and a score of both.');
  });

  it('says once what concerns both players, and sums up for each', async () => {
    const lines = await linesOf(
      'divide',
      '--instrument',
      'concert-harp',
      '--out-dir',
      folder,
      '--to',
      'json',
    );
    expect(lines.filter((line) => line.includes('Divided between two players'))).toHaveLength(1);
    expect(lines.filter((line) => /player\.\w+$/.test(line))).toHaveLength(2);
  });
});

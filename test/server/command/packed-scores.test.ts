import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { annotateFiles } from '../../../server/command/subcommands/annotate-file.ts';
import { FERRY_BELLS, oneHarp, twoHarps } from '../../two-harps.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'packed-'));
  writeFileSync(
    join(folder, 'evening.zip'),
    zipSync({
      'first half/bells.musicxml': FERRY_BELLS,
      'lamps.musicxml': oneHarp(['C4 E4 G4 C5 / R']),
      'broken.musicxml': strToU8('<score-partwise'),
      'programme.txt': strToU8('bells, lamps'),
    }),
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

const annotate = async (input: string, ...words: readonly string[]) => {
  const parsed = readArguments(['annotate', join(folder, input), ...words], {});
  if (!parsed.ok || parsed.command.kind !== 'annotate') throw new Error(JSON.stringify(parsed));
  const lines: string[] = [];
  const result = await annotateFiles(parsed.command, (line) => {
    lines.push(line);
  });
  return { result, lines };
};

const written = (out: string): readonly string[] =>
  readdirSync(out, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.\w+$/.test(path))
    .sort();

describe('an archive of scores', () => {
  it('gives every harp of every score its files, in a folder of the archive’s name', async () => {
    const out = join(folder, 'parts');
    const { result, lines } = await annotate('evening.zip', '--all-harps', '--out-dir', out, '--to', 'json');
    expect(written(out)).toEqual([
      'evening/first half/bells-Harp I.json',
      'evening/first half/bells-Harp II.json',
      'evening/lamps-Harp.json',
    ]);
    expect(lines.join('\n')).toContain('passed over, since it is no score:');
    expect(lines.find((line) => line.startsWith('3/3'))).toMatch(/broken\.musicxml/);
    expect(result).toMatchObject({ message: '1 of 3 files was not annotated' });
  });

  it('gives each score its file where not every harp is asked for', async () => {
    const out = join(folder, 'first harps');
    await annotate('evening.zip', '--out-dir', out, '--to', 'musicxml');
    expect(written(out)).toEqual(['evening/first half/bells.musicxml', 'evening/lamps.musicxml']);
  });
});

describe('a score of two harps', () => {
  it('tells what of which harp is not playable', async () => {
    const wrong = twoHarps(['C4 C4 C4 C4 / R'], ['F4 F4 F4 F4 / F#4 F4 F4 F4']);
    writeFileSync(join(folder, 'wrong.musicxml'), wrong);
    const { lines } = await annotate('wrong.musicxml', '--all-harps', '--out-dir', folder, '--to', 'json');
    expect(lines.filter((line) => line.includes('not playable: '))).toEqual([
      expect.stringMatching(/^Harp II: not playable: bar 1, beat 1: .*F♯ and F♮/),
    ]);
  });
});

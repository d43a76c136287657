import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { writeHelp } from '../../../server/command/arguments/help.ts';
import { describeFinding } from '../../../server/command/describe-plan.ts';
import { annotateFiles } from '../../../server/command/subcommands/annotate-file.ts';
import { planFile } from '../../../server/command/subcommands/plan-file.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-test-'));
  writeFileSync(join(folder, 'm.musicxml'), buildHarp(note('C4', 4), note('C#4', 4)));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const run = async (...words: readonly string[]) => {
  const parsed = readArguments(words, {});
  if (!parsed.ok) throw new Error(parsed.usage);
  const lines: string[] = [];
  const print = (line: string): void => void lines.push(line);
  const { command } = parsed;
  if (command.kind === 'annotate') return { ending: await annotateFiles(command, print), lines };
  if (command.kind === 'plan') return { ending: await planFile(command, print), lines };
  throw new Error(`a test of ${command.kind} stands elsewhere`);
};

describe('the command line', () => {
  it('says under which name a file can be written, in its own words', async () => {
    const [input, wanted] = [join(folder, 'm.musicxml'), join(folder, 'x.mei')];
    const { ending } = await run('annotate', input, '-o', wanted);
    const [xml, mxl] = ['musicxml', 'mxl'].map((kind) => `-o ${join(folder, `x.${kind}`)}`);
    expect(ending).toEqual({
      code: 2,
      message: `${input} cannot be converted to .mei: markings are added to a file of the same kind. Use ${xml} or ${mxl}.`,
    });
  });

  it('ends with 2 where a string is retuned that the harp does not have', async () => {
    const { ending } = await run('plan', join(folder, 'm.musicxml'), '--scordatura', 'B9 -50');
    expect(ending).toMatchObject({
      code: 2,
      message: expect.stringContaining('Its lowest string is C1, its highest G7'),
    });
  });

  it('tells of moves that are not printed, since the settings alone are', async () => {
    const output = join(folder, 'x.musicxml');
    const { lines } = await run(
      'annotate',
      join(folder, 'm.musicxml'),
      '-o',
      output,
      '--density',
      'settings',
    );
    expect(lines).toContain('remark: One move is not printed: you asked for full settings only.');
  });

  it('tells a beat as people say it', () => {
    const finding = {
      code: 'x',
      severity: 'note',
      bar: '3',
      barName: '3',
      barIndex: 2,
      beat: '9/2',
      staff: null,
      untilBar: '3',
      untilName: '3',
      notes: [],
      sentence: 'It rings.',
      suggestions: [],
      places: [{ bar: '3', barName: '3', barIndex: 2, beat: '9/2', notes: [], sentence: 'It rings.' }],
    } as const;
    expect(describeFinding(finding)).toEqual(['note: bar 3, beat 4½: It rings.']);
  });

  it('names both files that would be written to one', () => {
    expect(readArguments(['annotate', 'a/p.xml', 'q.xml', 'b/p.mei', '--out-dir', 'o'], {})).toEqual({
      ok: false,
      usage: 'a/p.xml and b/p.mei would both be written to o/p.pdf: use two folders, or rename one',
    });
  });

  it('keeps a score from the name of another one’s page', () => {
    const clash = readArguments(['annotate', 'a.xml', 'a-1.xml', '--out-dir', 'o', '--to', 'svg'], {});
    expect(clash).toEqual({
      ok: false,
      usage: 'a.xml and a-1.xml would both be written to o/a-1.svg: use two folders, or rename one',
    });
    expect(readArguments(['annotate', 'a.xml', 'a-1.xml', '--out-dir', 'o'], {}).ok).toBe(true);
    expect(readArguments(['annotate', 'a-2.xml', 'a-1.xml', '--out-dir', 'o', '--to', 'svg'], {}).ok).toBe(
      true,
    );
  });

  it('says how a choice of yes or no is written', () => {
    expect(readArguments(['annotate', 'a.xml', '--multi-bar-rests', 'false'], {})).toEqual({
      ok: false,
      usage: '“false” does not belong to any option: join it with an equals sign, as in --option=false',
    });
  });

  it('has help for every option that proof takes, and for strings tuned otherwise', () => {
    const help = writeHelp();
    const proof = help.slice(help.indexOf('tringle proof'), help.indexOf('tringle compare'));
    for (const flag of ['--part', '--instrument', '--foot-rest-seconds']) expect(proof).toContain(flag);
    expect(help).toContain('--scordatura');
  });
});

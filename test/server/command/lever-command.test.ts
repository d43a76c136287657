import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../server/command/arguments/arguments.ts';
import { compareFile } from '../../../server/command/subcommands/compare-file.ts';
import { planFile } from '../../../server/command/subcommands/plan-file.ts';

const FAIR = fileURLToPath(new URL('../../../server/demo/the-ribbon-stall.musicxml', import.meta.url));

const commandOf = (...words: readonly string[]) => {
  const parsed = readArguments(words, {});
  if (!parsed.ok) throw new Error(parsed.usage);
  return parsed.command;
};

/** What a command prints, and how it ends. */
const run = async (...words: readonly string[]) => {
  const lines: string[] = [];
  const print = (line: string): void => void lines.push(line);
  const command = commandOf(...words);
  if (command.kind === 'plan') return { ending: await planFile(command, print), lines };
  if (command.kind === 'compare') return { ending: await compareFile(command, print), lines };
  throw new Error(`a test of ${command.kind} stands elsewhere`);
};

describe('tringle plan for the lever harp', () => {
  it('prints the tuning, the levers, every change with its hand, and other tunings', async () => {
    const { ending, lines } = await run('plan', FAIR);
    expect(ending.code).toBe(0);
    expect(lines.slice(0, 2)).toEqual([
      'lever harp, 34 strings, tuned in E♭ major',
      'levers up: A♮3, A♮4, A♮5',
    ]);
    expect(lines).toContain('9    4     F♯4     left');
    expect(lines.some((line) => line.startsWith('A♭ major'))).toBe(true);
    expect(lines).toContainEqual(
      expect.stringMatching(/^tuning +changes +levers up +to retune +on next string +missing notes$/),
    );
    expect(lines.at(-1)).toMatch(
      /^32 bars, 5 changes \(at least 5 in this tuning\), playable as printed; (easy|moderate)$/,
    );
  });

  it('takes the tuning and the harp by name', async () => {
    const { lines } = await run('plan', FAIR, '--instrument', 'lever-harp-36', '--tuning', 'Ab major');
    expect(lines[0]).toBe('lever harp, 36 strings, tuned in A♭ major');
  });

  it('refuses an option of the other harp by name', async () => {
    const { ending } = await run('plan', FAIR, '--foot-rest-seconds', '0.3');
    expect(ending).toMatchObject({ code: 2, message: expect.stringContaining('footRestSeconds') });
  });
});

describe('tringle compare', () => {
  it('prints the verdict for both harps', async () => {
    const { ending, lines } = await run('compare', FAIR, '--max-semitones', '0');
    expect(ending.code).toBe(0);
    expect(lines[0]).toBe('Both harps as written, and in keys that suit the lever harp better');
    expect(lines[2]).toMatch(
      /^as written: B♭ major +concert harp, 47 strings +\d+ places? not playable +easy +6/,
    );
    expect(lines[3]).toMatch(
      /^as written: B♭ major +lever harp, 34 strings +playable +moderate +5 +E♭ major +0$/,
    );
  });

  it('prints all of it as JSON on request', async () => {
    const { lines } = await run('compare', FAIR, '--json', '--max-semitones', '0');
    expect(JSON.parse(lines.join('\n'))).toMatchObject({ lever: { changes: 5 }, transpositions: [] });
  });

  it('needs one file', () => {
    expect(readArguments(['compare'], {})).toMatchObject({ ok: false });
    expect(readArguments(['compare', 'a.xml', 'b.xml'], {})).toMatchObject({ ok: false });
  });
});

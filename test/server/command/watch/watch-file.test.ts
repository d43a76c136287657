import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../../engine/decisions/model.ts';
import { watchFile } from '../../../../server/command/subcommands/watch-file.ts';
import { buildHarp, note } from '../../../engine/score/musicxml/musicxml-builder.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-watch-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const score = (...names: readonly string[]): string => buildHarp(...names.map((name) => note(name, 4)));

/** The command on a part, and what it has printed since it was last asked. */
const startWatching = (first: string, decisions?: Decisions) => {
  const path = join(folder, 'part.musicxml');
  writeFileSync(path, first);
  const stopping = new AbortController();
  const file = join(folder, 'decisions.json');
  if (decisions !== undefined) writeFileSync(file, JSON.stringify(decisions));
  const own = decisions === undefined ? {} : { decisions: file };
  let printed: string[] = [];
  const ended = watchFile(
    { kind: 'watch', input: path, serve: null, options: { named: {}, file: null, ...own } },
    (line) => printed.push(line),
    stopping.signal,
  );
  const until = async (wanted: RegExp): Promise<string> => {
    await expect.poll(() => printed.join('\n'), { timeout: 20_000 }).toMatch(wanted);
    const text = printed.join('\n');
    printed = [];
    return text;
  };
  const stop = async () => {
    stopping.abort();
    return ended;
  };
  return { path, until, stop };
};

describe('tringle watch', { timeout: 60_000 }, () => {
  it('prints the plan first, and then what each save changed, until it is stopped', async () => {
    const { path, until, stop } = startWatching(score('C4', 'C#4', 'D4'));
    expect(await until(/1 move /)).toContain('C♯');
    writeFileSync(path, score('C4', 'D4', 'C#4'));
    await until(/saved/);
    writeFileSync(path, score('C4', 'D4', 'C#4', 'Eb4', 'E4'));
    const told = await until(/saved: 2 moves/);
    expect(told).toMatch(/added: E♮, bar 5/);
    expect(told).toMatch(
      /5 bars, 2 moves \(at least 2 with these spellings\), playable by hands and feet; \w+$/,
    );
    writeFileSync(path, score('C4', 'D4', 'C#4'));
    expect(await until(/saved: 1 move/)).toMatch(/gone: E♮, bar 5/);
    // Moves that go along with their bars are the same.
    writeFileSync(path, score('A4', 'B4', 'C4', 'D4', 'C#4'));
    await until(/saved: the plan is the same/);
    expect(await stop()).toEqual({ code: 0 });
  });

  it('takes the decisions that it was given along with their bars, and tells of those that have no place any more', async () => {
    const decided: Decisions = {
      ...NO_DECISIONS,
      pins: [
        { kind: 'position', pedal: 'F', position: 'sharp', from: { barIndex: 1, beat: '1' }, until: null },
      ],
      omit: [{ barIndex: 1, beat: '1', pitch: 'C#4' }],
    };
    const { path, until, stop } = startWatching(score('C4', 'C#4', 'D4'), decided);
    await until(/0 moves/);
    writeFileSync(path, score('A4', 'B4', 'C4', 'C#4', 'D4'));
    expect(await until(/saved/)).toContain('Decisions went along with 1 bar: bar 2 to bar 4');
    writeFileSync(path, score('A4', 'B4', 'C4', 'E4', 'D4'));
    const told = await until(/saved/);
    expect(told).toContain(
      'The decision to leave out C#4 in bar 4, beat 1 is ignored: no note with this pitch begins there',
    );
    writeFileSync(path, score('A4', 'B4', 'C4', 'D4'));
    expect(await until(/saved/)).toContain(
      'The decision to leave out C#4 in bar 4, beat 1 is gone with its bar',
    );
    await stop();
  });

  it('tells what is solved and what is new place by place, though several are told as one', async () => {
    const two = (first: string, second: string): string => first + note(second, 4, { chord: true });
    const [ofC, ofF, ofG] = [two(note('C5', 4), 'C#5'), two(note('F5', 4), 'F#5'), two(note('G5', 4), 'G#5')];
    const { path, until, stop } = startWatching(buildHarp(ofC, ofF, ofG));
    await until(/bars 1–3, 6 notes: One string .* in 3 places/);
    writeFileSync(path, buildHarp(note('C5', 4), ofF, ofG));
    const told = await until(/saved.*bars, /s);
    expect(told).toMatch(/solved: not playable: bar 1, beat 1: The string C5 /);
    expect(told).not.toMatch(/new: /);
    writeFileSync(path, buildHarp(note('C5', 4), note('F5', 4), note('G5', 4)));
    expect(await until(/saved.*bars, /s)).toMatch(
      /solved: not playable: bars 2–3, 4 notes: One string .* in 2 places/,
    );
    await stop();
  });

  it('sees a file that is written beside and renamed, and of several saves at once the last', async () => {
    const { path, until, stop } = startWatching(score('C4', 'D4'));
    await until(/0 moves/);
    for (const names of [['C4'], ['C4', 'F4'], ['C4', 'C#4']]) {
      writeFileSync(`${path}.new`, score(...names));
      renameSync(`${path}.new`, path);
    }
    expect(await until(/added: C♯, bar 2/)).toMatch(/saved: 1 move/);
    await stop();
  });

  it('tells a broken file and one that vanished, and compares the next save with the last good plan', async () => {
    const whole = score('C4', 'C#4');
    const { path, until, stop } = startWatching(whole);
    await until(/1 move /);
    writeFileSync(path, whole.slice(0, 300));
    expect(await until(/last plan stands/)).toMatch(/broken/);
    rmSync(path);
    await until(/cannot read .*part\.musicxml.*; the last plan stands/);
    writeFileSync(path, whole);
    await until(/saved: the plan is the same/);
    await stop();
  });
});

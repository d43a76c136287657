import { describe, expect, it } from 'vitest';
import type { PlanChoice } from '../../../server/api/requests/options.ts';
import { describePlan } from '../../../server/command/describe-plan.ts';
import { computePlan } from '../../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { barline, buildHarp, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';

const describeBars = (choice: PlanChoice, ...bars: readonly string[]): Promise<readonly string[]> =>
  describeText(choice, buildHarp(...bars));

const describeText = async (choice: PlanChoice, text: string): Promise<readonly string[]> => {
  const planned = await computePlan(
    { bytes: new TextEncoder().encode(text), fileName: '' },
    choice,
    startStageClock(IGNORE_PROGRESS),
  );
  if (!planned.ok) throw new Error(planned.problem.code);
  return describePlan(planned.value);
};

describe('the plan in words', () => {
  it('tells how the file was read, and counts one bar as one', async () => {
    const lines = await describeBars({}, note('C5', 4));
    expect(lines).toContainEqual(expect.stringMatching(/^remark: The score gives no tempo/));
    expect(lines.at(-1)).toMatch(/^1 bar, 0 moves /);
  });

  it('tells a beat that a program rounded to its ticks as the triplet it is', async () => {
    const triplet = ['D4', 'C4', 'C#4'].map((name) => note(name, 81 / 240)).join('');
    const lines = await describeBars({}, triplet);
    expect(lines).toContainEqual(expect.stringMatching(/^warning: bar 1, beat 1⅓: The string C4/u));
    expect(lines.join(' ')).not.toMatch(/\/80/u);
  });

  it('tells beside a move where the part tells it, with others of its rest, and only there', async () => {
    const run = (...names: readonly string[]): string => names.map((name) => note(name, 1)).join('');
    const played = [run('C4', 'D4', 'F4', 'G4'), run('C#4', 'D#4', 'F#4', 'G4')] as const;
    const rested = await describeBars({}, played[0], rest(4), rest(4), rest(4), played[1]);
    const moves = rested.filter((line) => /(?:C♯|D♯|F♯) +(?:left|right)/u.test(line));
    expect(rested[1]).toMatch(/told in the part$/);
    expect(moves.map((line) => line.slice(line.indexOf('bar ')))).toEqual(moves.map(() => 'bar 2, beat 1'));
    expect((await describeBars({}, ...played)).join()).not.toContain('told in');
  });

  it('tells when a lever change is made that is not for every time of playing, and only there', async () => {
    const tune = (endings: string): string =>
      `X:1\nM:3/4\nL:1/4\nK:G\n|: G A B | d2 B | c B A ${endings} |]\n`;
    const choice = { instrument: 'lever-harp-34' } as const;
    const timed = await describeText(choice, tune('|1 =F2 A | G3 :|2 F2 A | G3'));
    expect(timed).toContainEqual(expect.stringMatching(/F♯4 +left +not the first time$/u));
    const alike = await describeText(choice, tune('| G2 A | G3 :| =F2 A | F2 A | G3'));
    expect(alike.join()).not.toContain('first time');
  });

  it('lists every respelled note by the printed number of its bar', async () => {
    const bars = [['Cb5', 'B4', 'Cb5', 'B4'], ['C5'], ['B4', 'Cb5', 'B4', 'B4']].map((bar) =>
      bar.map((name) => note(name, 4 / bar.length)).join(''),
    );
    const lines = await describeBars({ spelling: 'free' }, ...bars);
    const told = lines.slice(lines.findIndex((line) => line.includes('played as')) + 1);
    expect(told.slice(0, 3).map((line) => line.trim().split(/\s+/u))).toEqual([
      ['1', '1', 'C♭5', 'B4'],
      ['1', '3', 'C♭5', 'B4'],
      ['3', '2', 'C♭5', 'B4'],
    ]);
  });

  it('names bars by their movement where a second one numbers them anew, and only there', async () => {
    const end = barline('<bar-style>light-heavy</bar-style>');
    const bars = [note('C4', 5), note('C4', 4) + end, note('C4', 2) + note('C#4', 2), note('C#4', 5)];
    const text = buildHarp(...bars);
    const anew = text
      .replace('<measure number="3"', '<measure number="1"')
      .replace('<measure number="4"', '<measure number="2"');
    const decided: PlanChoice = {
      pins: [
        { kind: 'position', pedal: 'C', position: 'flat', from: { barIndex: 2, beat: '1' }, until: null },
      ],
    };
    const told = async (each: string) => (await describeText(decided, each)).join('\n');
    expect(await told(anew)).toMatch(/^II 1 +3 +C♯ +left$/mu);
    expect(await told(anew)).toMatch(/: bar II 1, beat 1: .* in bar II 1 needs/u);
    expect(await told(anew)).toMatch(/^remark: bar I 1: The bar is longer .* \(also in bar II 2\)\.$/mu);
    expect(await told(text)).toMatch(/^3 +3 +C♯ +left$/mu);
    expect(await told(text)).toMatch(/: bar 3, beat 1: .* in bar 3 needs/u);
    expect(await told(text)).toMatch(/^remark: bar 1: The bar is longer .* \(also in bar 4\)\.$/mu);
  });

  it('tells which spellings would save moves', async () => {
    const music = ['A#5', 'B5', 'Bb5', 'B5'].map((name) => note(name, 1)).join('');
    const lines = await describeBars({ spelling: 'suggest' }, music);
    expect(lines).toContain('suggestion: play B♭5 as A♯5 in bar 1 (1 note): saves 2 moves');
    const eighths = ['A#5', 'B5', 'B5', 'B5', 'Bb4', 'Bb5', 'B5', 'B5'].map((name) => note(name, 1 / 2));
    expect((await describeBars({ spelling: 'suggest' }, eighths.join(''))).join('; ')).toContain(
      'suggestion: play B♭ as A♯ in bar 1 (2 notes in octaves 4 and 5): saves 2 moves',
    );
  });
});

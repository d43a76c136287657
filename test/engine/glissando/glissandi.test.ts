import { describe, expect, it } from 'vitest';
import { ALL_SETTINGS, findGlissandi } from '../../../engine/glissando/settings.ts';
import { readWantedSound, type WantedSound } from '../../../engine/glissando/wanted-sound.ts';
import { formatSetting, parseSetting, type Setting } from '../../../engine/harp/setting.ts';

const wanted = (text: string): WantedSound => {
  const read = readWantedSound(text);
  if (!read.ok) throw new Error(text);
  return read.value;
};

const setting = (text: string): Setting => {
  const read = parseSetting(text);
  if (!read.ok) throw new Error(text);
  return read.value;
};

const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'];
const exactCount = (text: string): number => findGlissandi(wanted(text)).exact.length;

describe('the settings for a glissando', () => {
  it('there are 2,187 settings', () => {
    expect(new Set(ALL_SETTINGS.map(formatSetting)).size).toBe(2187);
  });

  // H. Berlioz, Traité d'instrumentation (1844/1855), La Harpe: Parish Alvars' passage on C, E flat, G flat, A.
  it('the diminished seventh on C has one setting, with three pairs of doubled strings', () => {
    const { exact } = findGlissandi(wanted('C Eb Gb A'));
    expect(exact.map((each) => formatSetting(each.setting))).toEqual(['D♯ C♮ B♯ | E♭ F♯ G♭ A♮']);
    expect(exact[0]!.doubles).toEqual([
      ['C', 'B'],
      ['D', 'E'],
      ['F', 'G'],
    ]);
  });

  // Counts computed apart from this program (shared facts, `ct-families`): settings by root C, D flat ... B.
  const families: readonly (readonly [string, readonly number[]])[] = [
    ['7', [0, 2, 0, 0, 1, 0, 2, 0, 2, 0, 0, 1]],
    ['m7b5', [2, 0, 1, 0, 0, 2, 0, 1, 0, 0, 2, 0]],
    ['m7', [0, 2, 0, 2, 0, 2, 0, 0, 2, 0, 2, 0]],
    ['maj7', [0, 2, 0, 0, 2, 0, 2, 0, 0, 0, 0, 2]],
    ['m', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    ['M', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]],
    [' major', [4, 2, 1, 1, 1, 2, 2, 2, 1, 1, 1, 2]],
    [' harmonic minor', [2, 1, 2, 1, 2, 2, 1, 1, 1, 4, 1, 1]],
    [' major pentatonic', [1, 6, 2, 4, 6, 1, 6, 1, 6, 4, 2, 6]],
  ];
  it.each(families)('%s has as many settings on each root as were counted', (suffix, counts) => {
    expect(ROOTS.map((root) => exactCount(`${root}${suffix}`))).toEqual(counts);
  });

  it('whole-tone scales have five settings on C and four on D flat, diminished sevenths three in all', () => {
    expect([exactCount('C whole tone'), exactCount('Db whole tone')]).toEqual([5, 4]);
    expect(['Cdim7', 'Dbdim7', 'Ddim7'].map(exactCount)).toEqual([1, 1, 1]);
  });

  it('the nearest setting comes first', () => {
    const { exact } = findGlissandi(wanted('Db whole tone'), setting('D# C# B | Eb F G A'));
    expect(exact.map((each) => each.moves)).toEqual([0, 1, 1, 2]);
  });

  it('a triad has none, and its near misses add a pitch class', () => {
    const { exact, near } = findGlissandi(wanted('C E G'));
    expect(exact).toEqual([]);
    expect(near.length).toBeGreaterThan(0);
    for (const each of near) expect(each.foreign.length + each.missing.length).toBe(2);
  });

  it('names that are no music are refused', () => {
    expect(readWantedSound('Q quux')).toMatchObject({ ok: false, problem: { code: 'bad-value' } });
  });
});

import { describe, expect, it } from 'vitest';
import { fitSettings } from '../../../engine/glissando/fit-setting.ts';
import { findGlissandi } from '../../../engine/glissando/settings.ts';
import {
  readWantedSound,
  readWantedSounds,
  type WantedSound,
} from '../../../engine/glissando/wanted-sound.ts';
import { formatSetting, parseSetting, type Setting } from '../../../engine/harp/setting.ts';
import { ALL_SETTINGS, pitchClassOf } from '../../../engine/harp/setting-sound.ts';
import { chromaOf, LETTERS } from '../../../engine/music/pitch.ts';

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

const exactCount = (text: string): number => findGlissandi([wanted(text)]).exact.length;

describe('the settings for a glissando', () => {
  it('there are 2,187 settings', () => {
    expect(new Set(ALL_SETTINGS.map(formatSetting)).size).toBe(2187);
  });

  // H. Berlioz, Traité d'instrumentation (1844/1855), La Harpe: Parish Alvars' passage on C, E flat, G flat, A.
  it('the diminished seventh on C has one setting, with three pairs of doubled strings', () => {
    const { exact } = findGlissandi([wanted('C Eb Gb A')]);
    expect(exact.map((each) => formatSetting(each.setting))).toEqual(['D♯ C♮ B♯ | E♭ F♯ G♭ A♮']);
    expect(exact[0]!.doubled).toEqual([
      ['C', 'B'],
      ['D', 'E'],
      ['F', 'G'],
    ]);
  });

  it.each(families)('%s has as many settings on each root as were counted', (suffix, counts) => {
    expect(ROOTS.map((root) => exactCount(`${root}${suffix}`))).toEqual(counts);
  });

  it('whole-tone scales have five settings on C and four on D flat, diminished sevenths three in all', () => {
    expect([exactCount('C whole tone'), exactCount('Db whole tone')]).toEqual([5, 4]);
    expect(['Cdim7', 'Dbdim7', 'Ddim7'].map(exactCount)).toEqual([1, 1, 1]);
  });

  it('the nearest setting comes first', () => {
    const { exact } = findGlissandi([wanted('Db whole tone')], setting('D# C# B | Eb F G A'));
    expect(exact.map((each) => each.moves)).toEqual([0, 1, 1, 2]);
  });

  it('a triad has none, and its near misses add a pitch class', () => {
    const { exact, nearest } = findGlissandi([wanted('C E G')]);
    expect(exact).toEqual([]);
    expect(nearest.length).toBeGreaterThan(0);
    for (const { foreign, missing, setting: strings } of nearest) {
      expect(new Set(foreign.map((letter) => pitchClassOf(letter, strings))).size + missing.length).toBe(2);
    }
  });

  it('names that are no music are refused', () => {
    expect(readWantedSound('Q quux')).toMatchObject({ ok: false, problem: { code: 'bad-value' } });
  });
});

describe('the name of a sound', () => {
  const notes = (text: string): string => wanted(text).notes.join(' ');

  // Spelled by hand from the names (common practice, no source); German names as in German scores.
  it.each([
    [['C dim 7', 'c dim7', 'C diminished seventh', 'C°7'], 'C E♭ G♭ A'],
    [['C dominant 7', 'c dominant seventh', 'C7'], 'C E G B♭'],
    [['Eb major 7', 'eb major seventh', 'E flat major 7th', 'Es maj7'], 'E♭ G B♭ D'],
    [['C minor 7', 'cm7', 'C min 7'], 'C E♭ G B♭'],
    [['Cø7', 'C ø7', 'c half-diminished', 'C half diminished seventh'], 'C E♭ G♭ B♭'],
    [['C whole-tone', 'c whole tone', 'C Whole Tone'], 'C D E F♯ G♯ A♯'],
    [['F# natural minor', 'f sharp natural minor', 'fis-moll', 'Fis Moll'], 'F♯ G♯ A B C♯ D E'],
    [['C octatonic', 'c octatonic scale'], 'C D♭ E♭ E F♯ G A B♭'],
    [['Es-Dur', 'es dur', 'Eb major'], 'E♭ F G A♭ B♭ C D'],
    [['B-Dur', 'Bb major', 'bb major'], 'B♭ C D E♭ F G A'],
    [['h-moll', 'H moll', 'b minor'], 'B C♯ D E F♯ G A'],
    [['C Es Ges A', 'c es ges a', 'c eb gb a'], 'C E♭ G♭ A'],
    [['C D E G H', 'C D E G B'], 'C D E G B'],
    [['As7', 'ab7'], 'A♭ C E♭ G♭'],
    [['Asus4'], 'A D E'],
  ])('%j is understood as %s', (names, expected) => {
    expect(names.map(notes)).toEqual(names.map(() => expected));
  });

  it('without a root is no single sound', () => {
    for (const text of ['dim 7', 'whole-tone', 'half-diminished', 'octatonic', 'natural minor'])
      expect(readWantedSound(text).ok).toBe(false);
  });
});

describe('a name without a root', () => {
  const onRoots = (text: string): readonly WantedSound[] => {
    const read = readWantedSounds(text);
    return read.ok ? read.value.sounds : [];
  };

  // How many sounds there are of each kind: common knowledge (O. Messiaen’s modes of limited transposition).
  it.each([
    ['dim 7', 3],
    ['diminished seventh', 3],
    ['°7', 3],
    ['whole-tone', 2],
    ['octatonic', 3],
    ['augmented triad', 4],
    ['dominant 7', 12],
    ['7', 12],
    ['m7', 12],
    ['maj7', 12],
    ['minor 7', 12],
    ['ø7', 12],
    ['half-diminished', 12],
    ['natural minor', 12],
    ['Dur', 12],
    ['chromatic', 1],
    ['Q quux', 0],
    ['', 0],
    [' ', 0],
  ])('“%s” is meant on every root: %i sounds', (text, count) => {
    expect(onRoots(text)).toHaveLength(count);
  });

  it('says on which roots its sounds are the same', () => {
    expect(onRoots('dim 7').map(({ name }) => name)).toEqual([
      'C, E♭, F♯, A dim 7',
      'D♭, E, G, B♭ dim 7',
      'D, F, A♭, B dim 7',
    ]);
  });

  it('is one sound where its name begins with a note', () => {
    for (const text of ['Eb9', 'b7', 'c dim 7', 'A B C', 'Es-Dur', 'Asus4'])
      expect(onRoots(text).map(({ name }) => name)).toHaveLength(1);
  });

  it('leads to the setting with the fewest moves on any root', () => {
    const { exact } = findGlissandi(onRoots('dominant 7'), setting('D C# B | Eb F G A'));
    const best = Math.min(
      ...ROOTS.flatMap((root) =>
        findGlissandi([wanted(`${root}7`)], setting('D C# B | Eb F G A')).exact.map(({ moves }) => moves),
      ),
    );
    expect(exact[0]!.moves).toBe(best);
    expect(exact.map(({ moves }) => moves)).toEqual(exact.map(({ moves }) => moves).sort((a, b) => a - b));
    const perRoot = families.find(([name]) => name === '7')![1];
    expect(exact).toHaveLength(perRoot.reduce((sum, count) => sum + count, 0));
  });
});

describe('a setting that is fitted to a sound', () => {
  const natural = setting('D C B | E F G A');
  const dim7 = new Set([0, 3, 6, 9]);

  it('keeps what is settled, and is exact where one can be', () => {
    const { exact } = fitSettings(dim7, { C: 0 }, natural);
    expect(formatSetting(exact!)).toBe('D♯ C♮ B♯ | E♭ F♯ G♭ A♮');
    const { exact: none, nearest } = fitSettings(dim7, { B: 0 }, natural);
    expect(none).toBeNull();
    expect(formatSetting(nearest)).toBe('D♯ C♮ B♮ | E♭ F♯ G♭ A♮');
  });

  it('is found wherever one of all settings is exact', () => {
    for (const each of ALL_SETTINGS.filter((_, i) => i % 37 === 0)) {
      const sound = new Set(LETTERS.map((letter) => (chromaOf(letter) + each[letter] + 12) % 12));
      expect(fitSettings(sound, {}, natural).exact).not.toBeNull();
      expect(fitSettings(sound, each, natural).exact).toEqual(each);
    }
  });
});

import { describe, expect, it } from 'vitest';
import { readMode } from '../../../engine/compare/pedal-keys.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { type KeyMode, nameKey, readKeyMode } from '../../../engine/music/key-names.ts';
import { openScore } from '../../../engine/score/open.ts';
import { rateTune } from '../../../engine/sets/rate-tune.ts';
import { meiScore } from '../../render/small-score.ts';
import { readAbc, tune } from '../score/abc/abc-builder.ts';

describe('the name of a key', () => {
  it.each([
    [0, 'major', 'C major'],
    [-7, 'major', 'C♭ major'],
    [7, 'minor', 'A♯ minor'],
    [-2, 'minor', 'G minor'],
    [0, 'dorian', 'D dorian'],
    [1, 'mixolydian', 'D mixolydian'],
    [-1, 'lydian', 'B♭ lydian'],
    [2, 'phrygian', 'F♯ phrygian'],
    [0, 'locrian', 'B locrian'],
    [-3, null, 'E♭ major or C minor'],
  ] satisfies [number, KeyMode, string][])('with %i fifths in %s is %s', (fifths, mode, name) => {
    expect(nameKey(fifths, mode)).toBe(name);
  });

  it.each([
    ['aeolian', 'minor'],
    ['Minor', 'minor'],
    ['none', null],
    [undefined, null],
  ])('has from “%s” in a file the mode %s', (text, mode) => {
    expect(readKeyMode(text)).toBe(mode);
  });
});

describe('the mode of a part', () => {
  it.each([
    ['Gm', 'G minor'],
    ['D dor', 'D dorian'],
    ['Amix', 'A mixolydian'],
    ['Bb', 'B♭ major'],
  ])('is as a tune states it with K:%s, in MEI and in MusicXML', async (key, name) => {
    for (const tuneFormat of ['mei', 'musicxml'] as const) {
      // The last note is the first of no such key.
      const score = await readAbc(tune('C4 E4|', `M:4/4\nL:1/8\nK:${key}`), { tuneFormat });
      expect(rateTune(score, DEFAULT_LEVER_OPTIONS, 0).keyName).toBe(name);
    }
  });

  it('is else told by the last bass note', () => {
    const opened = openScore(meiScore({ bars: ['a4.1/a2.1'] }));
    if (!opened.ok) throw new Error(opened.problem.code);
    expect(readMode(opened.value)).toBe('minor');
  });
});

describe('the tempo of a tune that states none', () => {
  it.each([
    ['6/8', 144, '96 dotted quarter notes a minute'],
    ['12/16', 72, '96 dotted eighth notes a minute'],
    ['3/8', 96, '96 quarter notes a minute'],
    ['4/4', 96, '96 quarter notes a minute'],
  ])('in %s is %i quarter notes a minute', async (meter, quarters, inWords) => {
    for (const tuneFormat of ['mei', 'musicxml'] as const) {
      const score = await readAbc(tune('C4 E4|', `M:${meter}\nL:1/8\nK:C`), { tuneFormat });
      expect(score.tempo).toMatchObject([{ quartersPerMinute: quarters, origin: 'assumed' }]);
      expect(score.remarks.map(({ message }) => message).join(' ')).toContain(`${inWords} are assumed`);
    }
  });
});

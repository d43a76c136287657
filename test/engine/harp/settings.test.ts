import { describe, expect, it } from 'vitest';
import {
  formatSetting,
  nameOfPosition,
  POSITIONS,
  parseSetting,
  positionNamed,
} from '../../../engine/harp/setting.ts';

describe('a setting in words', () => {
  it.each(['D♭ C♯ B♭ | E♮ F♯ G♮ A♭', 'Db C# Bb E F# G Ab', 'Ab G F# En Bb C♯ D♭'])(
    'is read from “%s”',
    (text) => {
      const setting = parseSetting(text);
      expect(setting.ok && formatSetting(setting.value)).toBe('D♭ C♯ B♭ | E♮ F♯ G♮ A♭');
    },
  );

  it.each(['D𝄪', 'Dbb', 'Dconstructor', 'Dis'])('has no pedal at “%s”', (name) => {
    expect(parseSetting(`${name} C B E F G A`)).toMatchObject({
      ok: false,
      problem: { value: name, column: 1 },
    });
  });
});

it('a position is called by one name', () => {
  expect(POSITIONS.map(nameOfPosition)).toEqual(['flat', 'natural', 'sharp']);
  expect(POSITIONS.map(nameOfPosition).map(positionNamed)).toEqual(POSITIONS);
});

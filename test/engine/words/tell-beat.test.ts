import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { tellBeat } from '../../../engine/words/format-beat.ts';
import { LANGUAGES, type Language } from '../../../render/words/language.ts';
import { wordsOf } from '../../../render/words/words.ts';

const told = (num: number, den: number, language: Language = 'english'): string =>
  tellBeat(rational(num, den), wordsOf({ language }).study.partOfBeat);

describe('a beat in the tables of a study', () => {
  it('has the fractions that are counted: halves, thirds, quarters and eighths', () => {
    expect([told(2, 1), told(5, 2), told(7, 3), told(7, 4), told(9, 8)]).toEqual([
      '2',
      '2½',
      '2⅓',
      '1¾',
      '1⅛',
    ]);
  });

  it('is told among septuplets and quintuplets by which of their notes it is', () => {
    expect(told(11, 7)).toBe('1, 5th of 7');
    expect(told(16, 5)).toBe('3, 2nd of 5');
  });

  it('is told so of ticks that a program rounded, and in every language with both numbers', () => {
    expect(told(256 + 146, 256)).toBe('1, 5th of 7');
    for (const language of Object.keys(LANGUAGES) as Language[])
      expect(told(11, 7, language)).toMatch(/1, 5.*7/u);
  });
});

import { describe, expect, it } from 'vitest';
import { readLeverWords } from '../../../../engine/score/words/lever-words.ts';
import { takeTime } from '../../../../engine/score/words/time-words.ts';
import { timeInWords } from '../../../../render/levers/lever-words.ts';
import { LANGUAGES, type Language } from '../../../../render/words/language.ts';
import { wordsOf } from '../../../../render/words/words.ts';

describe('words for a time of playing', () => {
  it.each([
    ['1st time: C♯5', 'first'],
    ['C♯5 first time only', 'first'],
    ['2nd time: C♯5', 'later'],
    ['beim 1. Mal: Cis5', 'first'],
    ['C♯5', null],
  ] as const)('“%s” is for %s', (text, time) => {
    const read = readLeverWords(text);
    expect(read?.time).toBe(time);
    expect(read?.names.map(({ letter, octave, alter }) => [letter, octave, alter])).toEqual([['C', 5, 1]]);
  });

  it('are told as the pages have them in every language', () => {
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const { times } = wordsOf({ language }).inWords;
      expect(takeTime(timeInWords('first', { timesPlayed: 2 }, times)).time).toBe('first');
      expect(takeTime(timeInWords('later', { timesPlayed: 2 }, times)).time).toBe('later');
    }
  });

  it('leave a text alone that names two times', () => {
    expect(takeTime('1st time C♯5, 2nd time C♮5').time).toBeNull();
  });
});

import { describe, expect, it } from 'vitest';
import {
  nameBarIn,
  nameEndsIn,
  nameSpanIn,
  openingNumerals,
  writeNumeral,
} from '../../../engine/words/bar-names.ts';
import { smallPart } from '../../part-builder.ts';

const PIECE = smallPart({ upper: 'C4/4 | D4/4 | E4/4 | F4/4' });

/** Two bars, and two of a second movement, numbered anew. */
const TWO = {
  movements: [2],
  bars: PIECE.bars.map((bar) => ({ ...bar, number: `${1 + (bar.index % 2)}` })),
};

describe('the names of bars', () => {
  it('are their numbers in a piece of one movement', () => {
    expect(PIECE.bars.map(({ index }) => nameBarIn(PIECE)(index))).toEqual(['1', '2', '3', '4']);
    expect(nameSpanIn(PIECE)(1, 2)).toBe('2–3');
    expect(openingNumerals(PIECE).join('')).toBe('');
  });

  it('tell apart bars of the same number in different movements', () => {
    expect(TWO.bars.map(({ index }) => nameBarIn(TWO)(index))).toEqual(['I 1', 'I 2', 'II 1', 'II 2']);
    expect(nameSpanIn(TWO)(2, 3)).toBe('II 1–2');
    expect(nameSpanIn(TWO)(1, 2)).toBe('I 2–II 1');
    expect(openingNumerals(TWO)).toEqual(['I', '', 'II', '']);
  });

  it('name one bar once, also where a repeat divides it', () => {
    expect(nameEndsIn(TWO)(2, 2)).toEqual(['II 1', 'II 1']);
    const divided = { ...TWO, bars: TWO.bars.map((bar) => ({ ...bar, number: '9' })) };
    expect(nameSpanIn(divided)(2, 3)).toBe('II 9');
  });

  it.each([
    [1, 'I'],
    [4, 'IV'],
    [9, 'IX'],
    [14, 'XIV'],
    [48, 'XLVIII'],
    [99, 'XCIX'],
    [140, 'CXL'],
  ])('write %i as %s', (number, numeral) => {
    expect(writeNumeral(number)).toBe(numeral);
  });
});

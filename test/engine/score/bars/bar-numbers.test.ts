import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberBars } from '../../../../engine/score/bars/bar-numbers.ts';
import { bar as meiBar, meiScore, notes, read } from '../mei/mei-builder.ts';
import { bar, buildScore, note, readHarp, readScore } from '../musicxml/musicxml-builder.ts';

/** Names parted by spaces: `_` is an empty name, and `~` before a name says that the bar is not counted. */
const numbered = (names: string): string =>
  numberBars(
    names.split(' ').map((name) => ({
      name: name.replace(/^~/u, '').replace('_', ''),
      uncounted: name.startsWith('~'),
    })),
  ).join(' ');

describe('bars', () => {
  it.each([
    ['keep the numbers that the file prints', '0 1 12a 13', '0 1 12a 13'],
    ['without numbers are counted from 1', '_ _ _', '1 2 3'],
    ['without numbers are counted between those that have them', '7 _ 9 _', '7 8 9 10'],
    ['before the first number are counted back from it', '_ _ 8', '6 7 8'],
    ['for which the numbers leave no room are part of the bar before', '8 _ 9', '8 8 9'],
    ['that are not counted are part of the bar before', '8 ~_ 9 ~X1', '8 8 9 9'],
    ['before bar 1 are its upbeat', '_ 1', '0 1'],
    ['that lead to the first and are not counted are its upbeat', '~X0 _ _', '0 1 2'],
    ['of which none would be counted are all counted', '~_ ~_ ~_', '1 2 3'],
    ['of which none would be counted behind an upbeat are all counted', '~0 ~X1 ~X2', '0 1 2'],
    ['that are not counted go on from counted ones, too', '7 _ ~_ _', '7 8 8 9'],
    ['with names that a program made up are counted', 'X1 X2 X3', '1 2 3'],
    ['with names without a figure are counted', '* ? -', '1 2 3'],
    ['of which all have one number are counted', '1 1 1', '1 2 3'],
    [
      'with a program’s long names have the figures at their end',
      'MOVEMENT2_MEASURE17 MOVEMENT2_MEASURE18',
      '17 18',
    ],
    ['after which the numbers start again are counted on', '50 _ 1', '50 51 1'],
  ])('%s: %s', (_, names, numbers) => {
    expect(numbered(names)).toBe(numbers);
  });

  it('all have a number, whatever the file says', () => {
    const anyBar = fc.record({
      name: fc.oneof(fc.string(), fc.nat(20).map(String)),
      uncounted: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(anyBar), (bars) => {
        const numbers = numberBars(bars);
        expect(numbers).toHaveLength(bars.length);
        for (const number of numbers) expect(number).toMatch(/\d/u);
      }),
    );
  });
});

describe('a bar without a usable number is told by its count', () => {
  it('in MusicXML', () => {
    const score = readHarp(
      bar(note('C4', 4), { number: '' }),
      bar(note('C4', 5), { number: '?' }),
      bar(note('C4', 4), { number: '' }),
    );
    expect(score.bars.map((each) => each.number)).toEqual(['1', '2', '3']);
    expect(score.remarks.find((each) => each.code === 'bar-overfull')?.barNumber).toBe('2');
  });

  it('in the other parts of a score, too', () => {
    const quiet = (): string => note('C4', 4);
    const flute = [quiet(), '<sound forward-repeat="yes"/>', quiet()];
    const score = readScore(
      buildScore([
        { id: 'P1', name: 'Flute', bars: flute.map((content) => bar(content, { number: '' })) },
        { id: 'P2', name: 'Harp', bars: [1, 2, 3].map(() => bar(quiet(), { number: '' })) },
      ]),
    );
    expect(score.remarks.find((each) => each.code === 'repeat-ill-formed')?.barNumber).toBe('2');
  });

  it('in MEI', () => {
    const flow = [1, 2, 3].map(() => meiBar({ upper: notes('c4 d4 e4 f4', 4) })).join('');
    const score = read(meiScore(flow.replaceAll(/ n="\d" (?=>)/gu, '')));
    expect(score.bars.map((each) => each.number)).toEqual(['1', '2', '3']);
  });
});

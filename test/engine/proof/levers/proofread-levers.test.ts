import { describe, expect, it } from 'vitest';
import { DEFAULT_LEVER_OPTIONS } from '../../../../engine/levers/options.ts';
import { describeLeverFixes } from '../../../../engine/proof/levers/describe-lever-fixes.ts';
import { proofreadLevers } from '../../../../engine/proof/levers/proofread-levers.ts';
import { leverPart } from './lever-part.ts';

const PART = { upper: 'F4/1 G4/1 r/2 | F#4/1 G4/1 r/2 | r/2 F4/1 G4/1', keyFifths: -3 };
const TABLE = [1, 1, 'Tuning E♭ major. All levers down'] as const;
const UP = [1, 3, 'F♯4'] as const;
const DOWN = [2, 3, 'F♮4'] as const;

type Words = Parameters<typeof leverPart>[1];

const proofOf = (words: readonly Words[], part: Parameters<typeof leverPart>[0] = PART) => {
  const score = leverPart(part, ...words);
  const proof = proofreadLevers(score, DEFAULT_LEVER_OPTIONS);
  return { ...proof, told: proof.repair.edits.map(({ fixes }) => describeLeverFixes(score, fixes)) };
};

describe('lever markings for one time of playing', () => {
  const ENDINGS = { upper: 'D5/1 r/3 | D#5/1 r/3 | D5/1 r/3', playOrder: [0, 1, 0, 2] };
  const [OPEN, BACK] = [
    [1, 1, 'Tuning C major. All levers down'],
    [2, 3, 'D♮5'],
  ] as const;

  it('are read that time alone', () => {
    expect(proofOf([OPEN, [1, 3, '1st time: D♯5'], BACK], ENDINGS).findings).toEqual([]);
  });

  it('are wrong for the second ending without the words, and for the first with those of another time', () => {
    const faults = (text: string) =>
      proofOf([OPEN, [1, 3, text], BACK], ENDINGS).findings.filter(({ severity }) => severity === 'stop');
    expect(faults('D♯5').map(({ bar }) => bar)).toEqual([2]);
    expect(faults('2nd time: D♯5').map(({ bar }) => bar)).toEqual([1, 2]);
  });
});

describe('lever markings', () => {
  it.each([
    ['with octaves', [TABLE, UP, DOWN]],
    ['without octaves, each for the string that is played next', [TABLE, [1, 3, 'F♯'], [2, 3, 'F♮']]],
    ['by where the lever goes', [TABLE, [1, 3, 'raise F'], [2, 3, 'F lever down']]],
    ['in German', [TABLE, [1, 3, 'Klappe F hoch'], [2, 3, 'F runter']]],
    ['over two lines', [[1, 1, 'Tuning E♭ major. Levers up: C♯5'], [1, 1, 'D♯5'], UP, DOWN]],
    ['with a table of all letters', [[1, 1, 'D C B♭ / E♭ F G A♭'], UP, DOWN]],
    ['with a table of all letters in two rows', [[1, 1, 'D C B♭'], [1, 1, 'E♭ F G A♭'], UP, DOWN]],
    ['with a row that excepts one string', [[1, 1, 'D C B♭ / E♭ F G A♭, C♯5'], UP, DOWN]],
  ] satisfies [string, Words[]][])('are right %s', (_, words) => {
    expect(proofOf(words).findings).toEqual([]);
  });

  it.each([
    ['a change left out is put in, where a hand is free', [TABLE, UP], ['Add F♮4 at bar 3, beat 2.']],
    [
      'a name of another octave is corrected',
      [TABLE, [1, 3, 'F♯5'], DOWN],
      ['Print F♯4 instead of F5 in “F♯5” at bar 1, beat 3.'],
    ],
    [
      'a name of another letter is corrected',
      [TABLE, [1, 3, 'G♯4'], DOWN],
      ['Print F♯4 instead of G4 in “G♯4” at bar 1, beat 3.'],
    ],
    [
      'a change after its note goes before it',
      [TABLE, [2, 2, 'F♯4'], DOWN],
      ['Move F♯4 from “F♯4” at bar 2, beat 2 to bar 1, beat 4.'],
    ],
    [
      'a name that no lever gives is what is missing there',
      [TABLE, [1, 3, 'F♭4'], DOWN],
      ['Print F♯4 instead of F4 in “F♭4” at bar 1, beat 3.'],
    ],
  ] satisfies [string, Words[], string[]][])(
    '%s, by one edit that is proved to be the fewest',
    (_, words, told) => {
      const proof = proofOf(words);
      expect(proof.correct).toBe(false);
      expect(proof.told).toEqual(told);
      expect(proof.repair).toMatchObject({ proven: true, faultsLeft: 0 });
    },
  );

  it('in bare letters that are not all seven are told by name and place as not understood', () => {
    const { findings } = proofOf([TABLE, [1, 3, 'D C B'], UP, DOWN]);
    expect(
      findings.map(({ code, bar, sentence }) => ({ code, bar, isQuoted: sentence.includes('“D C B”') })),
    ).toEqual([{ code: 'lever-words-not-understood', bar: 0, isQuoted: true }]);
  });

  it('of a table in rows are corrected by a letter of theirs', () => {
    const proof = proofOf([[1, 1, 'D C B♭'], [1, 1, 'E♭ F♯ G A♭'], [2, 1, 'F♯4'], DOWN]);
    expect(proof.correct).toBe(false);
    expect(proof.repair).toMatchObject({ faultsLeft: 0 });
    expect(proof.told).toHaveLength(1);
  });

  it('of a note that its own open string gives need not tell that the neighbour is left alone', () => {
    const proof = proofOf(
      [
        [1, 1, 'Tuning C major. All levers down'],
        [1, 3, 'F♯4'],
      ],
      {
        upper: 'F4/1 r/2 G4/1 | F#4/1 r/3',
        keyFifths: 0,
      },
    );
    expect(proof.findings).toEqual([]);
  });

  it('that hold the first time alone are told of the second', () => {
    const proof = proofOf([TABLE, [2, 3, 'F♯4']], {
      ...PART,
      upper: 'G4/4 | F4/1 r/3 | F#4/1 r/3',
      playOrder: [0, 1, 2, 1, 2],
    });
    expect(proof.findings.map(({ sentence }) => sentence).join(' ')).toContain(
      'When the music returns to bar 2, F4',
    );
    expect(proof.repair.faultsLeft).toBe(0);
  });

  describe('in a tune that is played twice from its first bar', () => {
    const TWICE = { ...PART, upper: 'G4/2 F4/2 | F#4/1 r/3', playOrder: [0, 1, 0, 1] };
    const RAISE = [1, 4, 'F♯4'] as const;

    it('are told where only the table before the first note would set a lever back', () => {
      const proof = proofOf([TABLE, RAISE], TWICE);
      expect(proof.findings.map(({ sentence }) => sentence).join(' ')).toContain(
        'When the music returns to bar 1, F4',
      );
      expect(proof.told).toEqual(['Add F♮4 at bar 1, beat 2.']);
      expect(proof.repair).toMatchObject({ proven: true, faultsLeft: 0 });
    });

    it.each([
      ['before the jump', [TABLE, RAISE, [2, 3, 'F♮4']]],
      ['beside the table', [TABLE, [1, 1, 'F♮4'], RAISE]],
      ['by a table at the end', [TABLE, RAISE, [2, 3, 'All levers down']]],
    ] satisfies [string, Words[]][])('are right where the lever is set back %s', (_, words) => {
      expect(proofOf(words, TWICE).findings).toEqual([]);
    });

    it('are read again each time in a table farther on', () => {
      const part = { ...PART, upper: 'F#4/1 r/3 | r/2 F4/1 r/1 | F#4/1 r/3', playOrder: [0, 1, 2, 1, 2] };
      const start = [1, 1, 'Tuning E♭ major. Levers up: F♯4'] as const;
      const proof = proofOf([start, [2, 1, 'All levers down'], [2, 4, 'F♯4']], part);
      expect(proof.findings).toEqual([]);
    });
  });

  it('may set a lever to where it stood there on the pass before, though no note asks for it', () => {
    const words = [TABLE, [2, 1, 'F♮4'], [3, 2, 'F♯4']] satisfies Words[];
    const upper = 'F4/1 r/3 | r/4 | F4/1 r/2 F#4/1 | G4/4';
    expect(proofOf(words, { ...PART, upper, playOrder: [0, 1, 2, 1, 3] }).findings).toEqual([]);
    const straightOn = proofOf([TABLE, [3, 2, 'F♯4'], [4, 1, 'F♮4']], { ...PART, upper });
    expect(straightOn.findings.map(({ sentence }) => sentence)).toEqual([
      'F♮4 is marked, but no note needs it before the lever moves again.',
    ]);
  });
});

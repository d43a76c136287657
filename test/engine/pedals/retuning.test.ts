import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeHelp } from '../../../engine/findings/help/help.ts';
import { CONCERT_HARP } from '../../../engine/harp/profiles/concert-harp.ts';
import { parseScordatura, stringsSounding } from '../../../engine/harp/scordatura.ts';
import { LETTERS, midiOf, type Pitch } from '../../../engine/music/pitch.ts';
import { adviseRetuning, findRetuning } from '../../../engine/pedals/findings/retuning.ts';

const quarterSharp = (letter: Pitch['letter'], octave: number): Pitch => ({ letter, octave, alter: 0.5 });
const plain = (letter: Pitch['letter'], alter: number, octave: number): Pitch => ({ letter, octave, alter });

describe('a quarter-tone', () => {
  it('on a string that nothing else asks for is had by lowering a string', () => {
    const found = findRetuning([quarterSharp('C', 4), plain('E', 0, 4)], CONCERT_HARP)!;
    expect(found.lost).toEqual([]);
    expect([...found.strings.values()]).toEqual([-50]);
    expect(describeHelp(adviseRetuning(found))).toContain('50 cents lower');
    expect(describeHelp(adviseRetuning(found))).not.toContain('strains');
  });

  it('beside D natural cannot take the D string, which alone gives D', () => {
    const found = findRetuning(
      [plain('D', 0.5, 4), plain('D', 0, 4), plain('E', -1, 4), plain('D', 1, 4)],
      CONCERT_HARP,
    )!;
    expect(found.lost).toEqual([]);
    expect(found.strings.has('D4')).toBe(false);
  });

  it('that costs a pitch in any tuning tells which', () => {
    const chromatic = [60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70, 71].map((midi) =>
      plain('C', midi - 60, 4),
    );
    const scale = LETTERS.flatMap((letter) => [-1, 0, 1].map((alter) => plain(letter, alter, 4)));
    const found = findRetuning([quarterSharp('G', 4), ...chromatic, ...scale], CONCERT_HARP)!;
    expect(found.strings.size).toBe(1);
    expect(found.lost.length).toBeGreaterThan(0);
    expect(describeHelp(adviseRetuning(found))).toContain('no string gives');
  });

  it('is not searched for where there is none', () => {
    expect(findRetuning([plain('C', 0, 4)], CONCERT_HARP)).toBeNull();
  });

  const pitches = fc.array(
    fc.record({
      letter: fc.constantFrom(...LETTERS),
      alter: fc.constantFrom(-1, -0.5, 0, 0.5, 1),
      octave: fc.constantFrom(3, 4),
    }),
    { minLength: 1, maxLength: 10 },
  );

  it('and every pitch that is not told as lost has a string in the tuning found', () => {
    fc.assert(
      fc.property(pitches, (asked) => {
        const found = findRetuning(asked, CONCERT_HARP);
        if (found === null) return asked.every(({ alter }) => Number.isInteger(alter));
        const lost = new Set(found.lost.map(midiOf));
        return asked.every(
          (pitch) => lost.has(midiOf(pitch)) !== stringsSounding(pitch, found.strings).length > 0,
        );
      }),
    );
  });
});

describe('a string tuned a quarter-tone high', () => {
  it('gives its three pitches a quarter-tone high, and no plain one', () => {
    const tuned = new Map([['C4', 50]]);
    expect(stringsSounding(quarterSharp('C', 4), tuned)).toEqual([plain('C', 0, 4)]);
    expect(stringsSounding(plain('C', 0, 4), tuned)).toEqual([plain('B', 1, 3)]);
    expect(stringsSounding(plain('D', 0, 4), tuned)).toEqual([plain('D', 0, 4)]);
  });
});

describe('a list of strings with cents', () => {
  it('is read with either minus sign', () => {
    const read = parseScordatura('A4 +50, B3 −50; C2 25');
    expect(read.ok && [...read.value]).toEqual([
      ['A4', 50],
      ['B3', -50],
      ['C2', 25],
    ]);
  });

  it.each(['H4 50', 'A4 150', 'A4 50, A4 20', 'A4', 'A4 fifty'])('is refused where it says %s', (text) => {
    expect(parseScordatura(text)).toMatchObject({ ok: false, problem: { code: 'bad-value' } });
  });
});

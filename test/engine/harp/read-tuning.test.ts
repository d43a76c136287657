import { describe, expect, it } from 'vitest';
import { E_FLAT_TUNING, KEY_TUNINGS, tuningName } from '../../../engine/harp/open-tuning.ts';
import { readTuning } from '../../../engine/harp/read-tuning.ts';

const nameOf = (text: string): string => {
  const read = readTuning(text);
  return read.ok ? tuningName(read.value) : read.problem.code;
};

describe('a tuning in words', () => {
  it('is a key by name, with real or ASCII accidentals', () => {
    expect(readTuning('E♭ major')).toEqual({ ok: true, value: E_FLAT_TUNING });
    expect(readTuning('Eb major')).toEqual({ ok: true, value: E_FLAT_TUNING });
  });

  it('is read back from every key signature as it is told', () => {
    const names = KEY_TUNINGS.map(tuningName);
    expect(names.map(nameOf)).toEqual(names);
  });

  it('of a minor key is that of its relative major', () => {
    expect(nameOf('C minor')).toBe('E♭ major');
    expect(nameOf('a minor')).toBe('C major');
    expect(nameOf('F# minor')).toBe('A major');
  });

  it('is seven note names where no key has them', () => {
    expect(nameOf('C D Eb F# G A Bb')).toBe('C D E♭ F♯ G A B♭');
  });

  it('names single strings that are tuned otherwise, and is read back as it is told', () => {
    expect(nameOf('Eb major, D#7, e2')).toBe('E♭ major, D♯7, E2');
    expect(nameOf('E♭ major, D♯7, E2')).toBe('E♭ major, D♯7, E2');
  });

  it.each(['C major, H4', 'C major, D##7', 'C major,', 'G# major', 'E♭', 'H major', 'C D E F G A', ''])(
    'is not “%s”',
    (text) => {
      expect(readTuning(text).ok).toBe(false);
    },
  );
});

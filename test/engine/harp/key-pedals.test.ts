import { Scale } from 'tonal';
import { describe, expect, it } from 'vitest';
import { pedalsForKey } from '../../../engine/harp/key-pedals.ts';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { MODES } from '../../../engine/music/keys.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';

const ascii = (alter: number): string => (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));

describe('the pedals for a key', () => {
  it.each(MODES)('give the notes of every %s scale, but for double sharps (tonal)', (mode) => {
    for (let fifths = -7; fifths <= 7; fifths += 1) {
      const { tonic, setting, changes, beyond } = pedalsForKey(fifths, mode);
      const name = mode === 'natural minor' ? 'minor' : mode;
      const scale = Scale.get(`${tonic.letter}${ascii(tonic.alter)} ${name}`).notes;
      const moved = new Map(changes.map(({ letter, to }) => [letter, to]));
      const given = LETTERS.map((letter) =>
        beyond.includes(letter) ? `${letter}##` : `${letter}${ascii(moved.get(letter) ?? setting[letter])}`,
      );
      expect(scale).toHaveLength(7);
      expect(given.sort(), `${fifths} ${mode}`).toEqual([...scale].sort());
    }
  });

  it('are all flat for C flat major and all sharp for C sharp major (common practice)', () => {
    expect(formatSetting(pedalsForKey(-7, 'major').setting)).toBe('D♭ C♭ B♭ | E♭ F♭ G♭ A♭');
    expect(formatSetting(pedalsForKey(7, 'major').setting)).toBe('D♯ C♯ B♯ | E♯ F♯ G♯ A♯');
  });

  it('move G for A minor, and cannot give the F double sharp of G sharp minor', () => {
    expect(pedalsForKey(0, 'harmonic minor').changes).toEqual([{ letter: 'G', to: 1 }]);
    expect(pedalsForKey(5, 'harmonic minor')).toMatchObject({ changes: [], beyond: ['F'] });
  });
});

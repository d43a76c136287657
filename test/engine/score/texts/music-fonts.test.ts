import { describe, expect, it } from 'vitest';
import { readMusicFont } from '../../../../engine/score/texts/music-fonts.ts';

describe('words in a font of signs', () => {
  it.each([
    ['q = 66', 'Maestro', '\uECA5 = 66'],
    ['h.', 'Petrucci', '\uECA3\uECB7'],
    ['mf', 'Opus', '\uE521\uE522'],
    ['3/4', 'Sonata', '3/4'],
    ['b', 'Helsinki Std', '♭'],
  ])('“%s” in %s is read as signs', (text, font, read) => expect(readMusicFont(text, font)).toBe(read));

  it('are left as they are where they are plain words after all', () => {
    expect(readMusicFont('dolce', 'Maestro')).toBe('dolce');
    expect(readMusicFont('q = 66', 'Opus Text')).toBe('q = 66');
    expect(readMusicFont('he', '')).toBe('he');
  });

  it('are signs in any font on the page of codes that Windows keeps for such fonts', () => {
    expect(readMusicFont('\uF071 = 60', '')).toBe('\uECA5 = 60');
    expect(readMusicFont('\uF0A0', '')).toBe('\uF0A0');
  });
});

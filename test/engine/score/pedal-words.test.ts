import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPedalWords, seemsPedalWords } from '../../../engine/score/pedal-words.ts';

/** Positions as `E-1 F1`, with `ahead` where they are to be prepared; null where the words are no marking. */
const read = (text: string): string | null => {
  const found = readPedalWords(text);
  if (found === null) return null;
  const positions = Object.entries(found.positions).map(([letter, position]) => `${letter}${position}`);
  return `${found.ahead ? 'ahead ' : ''}${positions.join(' ')}`;
};

describe('note names near the harp set pedals', () => {
  it.each([
    ['C♮', 'C0'],
    ['E♭', 'E-1'],
    ['Eb F#', 'E-1 F1'],
    ['f♯', 'F1'],
    ['E flat, A natural', 'E-1 A0'],
    ['F\uE262', 'F1'],
    ['D♮ C♯ B♭ | E♮ F♯ G♮ A♭', 'D0 C1 B-1 E0 F1 G0 A-1'],
    ['D C# Bb E F# G A', 'D0 C1 B-1 E0 F1 G0 A0'],
    ['(E♭)', 'E-1'],
    ['E♭/B♭', 'E-1 B-1'],
    ['D-C-B♭/E-F♯-G-A', 'D0 C0 B-1 E0 F1 G0 A0'],
    ['B nat', 'B0'],
    ['B nat.', 'B0'],
    ['b nat.', 'B0'],
    ['E nat, F#, B♮', 'E0 F1 B0'],
    ['B nat. E♮', 'B0 E0'],
    ['Cn', 'C0'],
    ['Fn', 'F0'],
    ['Ped. C#', 'C1'],
    ['C# ped.', 'C1'],
    ['Pedals: D♭ G♯', 'D-1 G1'],
    ['pédale mi♭', 'E-1'],
    ['LH: C# RH: F', 'C1 F0'],
    ['R.H. F♯ L.H. B♭', 'F1 B-1'],
    ['L: D♭ C♮ R: A♭', 'D-1 C0 A-1'],
  ])('English: “%s”', (text, positions) => {
    expect(read(text)).toBe(positions);
  });

  it.each([
    ['Fis', 'F1'],
    ['Es As', 'E-1 A-1'],
    ['Fis B', 'F1 B-1'],
    ['Cis H', 'C1 B0'],
    ['Dis Cis B E Fis G A', 'D1 C1 B-1 E0 F1 G0 A0'],
  ])('German: “%s”', (text, positions) => {
    expect(read(text)).toBe(positions);
  });

  it.each([
    ['Mi♮', 'E0'],
    ['mi♭ fa♯', 'E-1 F1'],
    ['si ♭', 'B-1'],
    ['mi bémol et la bémol', 'E-1 A-1'],
    ['re♯, ut♯', 'D1 C1'],
    ['sol diesis', 'G1'],
  ])('fixed-do: “%s”', (text, positions) => {
    expect(read(text)).toBe(positions);
  });

  it.each([
    ['préparez mi ♮ sol ♭', 'ahead E0 G-1'],
    ['prepare B♭', 'ahead B-1'],
    ['vorbereiten: Fis', 'ahead F1'],
    ['E♭ (preparare)', 'ahead E-1'],
  ])('ahead of need: “%s”', (text, positions) => {
    expect(read(text)).toBe(positions);
  });
});

describe('other words do not', () => {
  it.each([
    '',
    'A',
    'B',
    'H',
    'D E',
    'la',
    'la si',
    'ab',
    'an',
    'An',
    'des',
    'a tempo',
    'rit.',
    'E♭ major',
    'près de la table',
    'E♮ E♭',
    'B H',
    // English B, or German B flat?
    'D C B E F G A',
    'C♭ D♭ E♭ F♭ G♭ A♭ B♭ C♯',
    'mi♭ F♯',
    'nat',
    'nat.',
    'Bn',
    'En',
    'Fn.',
    'fn',
    'F n',
    'Ped.',
    'Ped. A',
    'C pedal',
    'senza ped.',
    'Ped. simile',
    'D/E',
    'A-D',
    'A–D',
    'B♭/D',
    'C/E G/B',
    'A-B-A',
    'A & B',
    'LH',
    'L.H.',
    'LH: F#',
    // Notes for the hands: F is no pedal of the left foot.
    'LH: F# RH: C',
    'D/E',
    'A-D',
    'A – D',
    // A chord over a bass note.
    'B♭/D',
    'Bb/D',
    'C/E♭',
    'A & B♭',
    'Nat. F♯ B♭ harm.',
  ])('“%s”', (text) => {
    expect(read(text)).toBeNull();
  });

  it('whatever they are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
        const found = readPedalWords(text);
        if (found !== null) expect(Object.keys(found.positions).length).toBeGreaterThan(0);
      }),
    );
  });
});

describe('words that are meant to name pedals but cannot be read', () => {
  it.each([
    'E♭ Fx A♮',
    'E♮ E♭',
    'mi♭ F♯',
    'C♭ D♭ E♭ F♭ G♭ A♭ B♭ C♯',
    'D C B E F G A',
    'Ped. C♯ Q',
    'H, E',
    'D E',
    'préparez E♭ Xx',
    'Fis Ces Xx',
  ])('“%s”', (text) => {
    expect(read(text)).toBeNull();
    expect(seemsPedalWords(text)).toBe(true);
  });

  it.each([
    '',
    'A',
    'E♭ major',
    'la la',
    'B♭ clarinet',
    'Clarinet in B♭',
    'a tempo',
    'Ped. simile',
    'LH',
    'près de la table',
    'the bells of the old town in E♭ and then in F♯ again',
  ])('not “%s”', (text) => {
    expect(seemsPedalWords(text)).toBe(false);
  });
});

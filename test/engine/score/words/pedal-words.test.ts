import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  looksLikePedalWords,
  readPedalNames,
  readPedalWords,
  usualNaming,
} from '../../../../engine/score/words/pedal-words.ts';

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

describe('names are read as people write them', () => {
  it.each([
    ['Eflat', 'E-1'],
    ['Bflat Eflat', 'B-1 E-1'],
    ['E FLAT', 'E-1'],
    ['E b', 'E-1'],
    ['F #', 'F1'],
    ['E b, A b', 'E-1 A-1'],
    ['eb', 'E-1'],
    ['bb', 'B-1'],
    ['eb ab', 'E-1 A-1'],
    ['es', 'E-1'],
    ['fis', 'F1'],
    ['es as', 'E-1 A-1'],
    ['mi b', 'E-1'],
    ['si b, mi b', 'B-1 E-1'],
    ['E nat.', 'E0'],
    ['E♭!', 'E-1'],
    ['to E♭', 'E-1'],
    ['set E♭', 'E-1'],
    ['change to F♯', 'F1'],
    ['nach Es', 'E-1'],
    ['E♮→E♭', 'E-1'],
    ['E♮ -> E♭, C♮ → C♯', 'E-1 C1'],
    ['R: E♭', 'E-1'],
    ['L: B♭', 'B-1'],
    ['RF: F♯', 'F1'],
    ['E♭4', 'E-1'],
    ['E4♭', 'E-1'],
    ['Eb5, F#3', 'E-1 F1'],
    ['D♮ C♮ B♭\nE♭ F♮ G♮ A♭', 'D0 C0 B-1 E-1 F0 G0 A-1'],
  ])('“%s”', (text, positions) => {
    expect(read(text)).toBe(positions);
  });

  it.each([
    ['R: B♭', 'B is no pedal of the right foot'],
    ['RH: E♭', 'a hand'],
    ['E♭/4', 'a fraction'],
    ['E♮ E♭', 'no arrow'],
    ['E♭, E♮→F♯', 'an arrow to another pedal'],
  ])('but not “%s”: %s', (text) => {
    expect(read(text)).toBeNull();
  });

  it('with their places in the text', () => {
    const changes = 'C♮→C♯, Eflat';
    const places = readPedalNames(changes)!.names.map(({ start, end }) => changes.slice(start, end));
    expect(places).toEqual(['C♯', 'Eflat']);
  });
});

describe('what the part’s other words tell', () => {
  it.each([
    [['Es', 'Fis', 'E', 'rit.'], 'german'],
    [['E♭', 'Fis'], null],
    [['Cis H'], 'german'],
    [['mi♭', 'a tempo'], 'fixed-do'],
    [['E♭', 'F natural'], 'english'],
    [['Es', 'A', 'B', 'C'], null],
    [['Es', 'A', 'B'], null],
    [['Es', 'E', 'H', 'A'], 'german'],
    [[], null],
  ] as const)('%j: %s', (texts, naming) => {
    expect(usualNaming(texts)).toBe(naming);
  });

  it('makes bare names naturals in German, and small words names', () => {
    expect(readPedalWords('E', 'german')?.positions).toEqual({ E: 0 });
    expect(readPedalWords('H', 'german')?.positions).toEqual({ B: 0 });
    expect(readPedalWords('B', 'german')?.positions).toEqual({ B: -1 });
    expect(readPedalWords('as', 'german')?.positions).toEqual({ A: -1 });
    expect(readPedalWords('ab', 'english')?.positions).toEqual({ A: -1 });
    expect(readPedalWords('E', 'english')).toBeNull();
  });

  it('decides between two namings', () => {
    expect(readPedalWords('D C B E F G A', 'german')?.positions).toMatchObject({ B: -1 });
    expect(readPedalWords('D C B E F G A', 'english')).toMatchObject({ positions: { B: 0 } });
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
    'E♭♭',
    'Eb#',
    'ebb',
    'F♯x',
    'ab',
    'R: B♭',
  ])('“%s”', (text) => {
    expect(read(text)).toBeNull();
    expect(looksLikePedalWords(text)).toBe(true);
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
    expect(looksLikePedalWords(text)).toBe(false);
  });
});

import { describe, expect, it } from 'vitest';
import { readAbc, sayNotes, tune } from './abc-builder.ts';

describe('notes of a tune', () => {
  it.each([
    ['octaves by case, commas and primes', "C, C c c'", 'C3/1/2 C4/1/2 C5/1/2 C6/1/2'],
    ['lengths by figures and strokes', 'C2 C C/ C/2 C3/2 C//', 'C4/1 C4/1/2 C4/1/4 C4/1/4 C4/3/4 C4/1/8'],
    ['broken rhythm both ways', 'C>D E<F', 'C4/3/4 D4/1/4 E4/1/4 F4/3/4'],
    ['chords from the lowest', '[GEC]2', 'C4/1 E4/1 G4/1'],
    ['triplets', '(3CDE F', 'C4/1/3 D4/1/3 E4/1/3 F4/1/2'],
    ['tuplets with all three figures', '(5:4:5CDEFG', 'C4/2/5 D4/2/5 E4/2/5 F4/2/5 G4/2/5'],
    ['a length of no one note value as tied notes', 'C5', 'C4/2 C4/1/2'],
    ['a third of a length as a triplet', 'C2/3D2/3E2/3', 'C4/1/3 D4/1/3 E4/1/3'],
    ['grace notes before their note', '{/d}C {ef}D', 'grace D5 C4/1/2 grace E5 grace F5 D4/1/2'],
  ])('%s', async (_claim, music, expected) => {
    expect(await sayNotes(music)).toBe(expected);
  });

  it.each([
    ['G has F sharp', 'G', 'FG', 'F♯4/1/2 G4/1/2'],
    ['D dorian has none', 'Ddor', 'FC', 'F4/1/2 C4/1/2'],
    ['E minor', 'Em', 'FC', 'F♯4/1/2 C4/1/2'],
    ['A mixolydian', 'A mix', 'FCG', 'F♯4/1/2 C♯4/1/2 G4/1/2'],
    ['E flat', 'Eb', 'EAB', 'E♭4/1/2 A♭4/1/2 B♭4/1/2'],
    ['D phrygian with a raised F', 'D phr ^f', 'EBF', 'E♭4/1/2 B♭4/1/2 F♯4/1/2'],
    ['the bagpipe key', 'Hp', 'FCG', 'F♯4/1/2 C♯4/1/2 G4/1/2'],
  ])('of a key or mode: %s', async (_claim, key, music, expected) => {
    expect(await sayNotes(music, `M:4/4\nL:1/8\nK:${key}`)).toBe(expected.replaceAll(/([A-G])(\d)/g, '$1$2'));
  });

  it('keep an accidental to the end of the bar, in its octave', async () => {
    expect(await sayNotes('^C C c =C|C')).toBe('C♯4/1/2 C♯4/1/2 C5/1/2 C4/1/2 C4/1/2');
  });

  it('keep it in all octaves, or nowhere, where the file says so', async () => {
    const asked = (way: string): string => `%%propagate-accidentals ${way}\nM:4/4\nL:1/8\nK:C`;
    expect(await sayNotes('^C c C', asked('pitch'))).toBe('C♯4/1/2 C♯5/1/2 C♯4/1/2');
    expect(await sayNotes('^C c C', asked('not'))).toBe('C♯4/1/2 C5/1/2 C4/1/2');
  });

  it('keep an accidental over a tie, and lose it after', async () => {
    expect(await sayNotes('^C8-|C2 C2')).toBe('C♯4/4 C♯4/1 C4/1');
  });

  it('change key within a bar, at once', async () => {
    expect(await sayNotes('F2 [K:G] F2|F4')).toBe('F4/1 F♯4/1 F♯4/2');
  });

  it('are tied where the file ties them to the same pitch', async () => {
    const { notes } = await readAbc(tune('C2-C2 [CE]2-[CE]2'));
    expect(notes.filter(({ tiedFrom }) => tiedFrom !== null)).toHaveLength(3);
  });

  it('carry ornaments, arpeggios, glissandi and articulations', async () => {
    const { notes, sweeps } = await readAbc(
      tune('TC ~D !mordent!E !uppermordent!F !turn!G2 !arpeggio![CEG]2|!~(!C4 !~)!c4'),
    );
    expect(notes.map(({ ornament }) => ornament?.kind ?? null).slice(0, 5)).toEqual([
      'trill',
      'turn',
      'mordent',
      'inverted-mordent',
      'turn',
    ]);
    expect(notes.some(({ arpeggio }) => arpeggio !== null)).toBe(true);
    expect(sweeps).toHaveLength(1);
  });
});

import { describe, expect, it } from 'vitest';
import { tuningName } from '../../../../engine/harp/open-tuning.ts';
import { looksLikeLeverWords, readLeverWords } from '../../../../engine/score/words/lever-words.ts';

/** What a text says, in short: `all B♮` as `all B 0`. */
const said = (text: string): string | null => {
  const read = readLeverWords(text);
  if (read === null) return null;
  const names = read.names.map(({ letter, octave, alter, lever, isWhole }) =>
    [isWhole ? 'all' : '', `${letter}${octave ?? ''}`, alter ?? '', lever ?? '']
      .filter((each) => each !== '')
      .join(' '),
  );
  return [
    ...(read.tuning === null ? [] : [tuningName(read.tuning)]),
    ...(read.isTable ? ['table'] : []),
    ...(read.othersDown ? ['others down'] : []),
    ...names,
  ].join('; ');
};

describe('words about levers', () => {
  it.each([
    [
      'Tuning E♭ major\nLevers up: F♯4, G♯3, all B♮',
      'E♭ major; table; others down; F4 1 up; G3 1 up; all B 0 up',
    ],
    ['Tuning E♭ major\nAll levers down', 'E♭ major; table; others down'],
    [
      'Accordage : Mi♭ majeur\nLeviers levés : Fa♯4, tous les Sol♯',
      'E♭ major; table; others down; F4 1 up; all G 1 up',
    ],
    [
      'Accordatura: Do minore\nLevette su: Fa♯4, tutti i Sol♯',
      'E♭ major; table; others down; F4 1 up; all G 1 up',
    ],
    ['Afinación: Do menor\nPalancas subidas: Fa♯4', 'E♭ major; table; others down; F4 1 up'],
    ['Tutte le levette giù', 'table; others down'],
    ['Todas las palancas bajadas', 'table; others down'],
    ['Tuning C D♭ E F♯ G A B♭, F♯3', 'C D♭ E F♯ G A B♭, F♯3; table'],
    ['Levers: E♭ A♭ B♭', 'table; E -1; A -1; B -1'],
    ['Levers: E A', 'table; others down; E up; A up'],
    ['Levers: F♯ C♯, others down', 'table; others down; F 1; C 1'],
    ['F♯', 'F 1'],
    ['F♯4', 'F4 1'],
    ['C𝄪5', 'C5 2'],
    ['lever F up', 'F up'],
    ['F lever up', 'F up'],
    ['raise F4 and C5', 'F4 up; C5 up'],
    ['down B', 'B down'],
    ['F4 up, C5 down', 'F4 up; C5 down'],
    ['Klappe F hoch', 'F up'],
    ['Klappen: Fis Cis', 'table; F 1; C 1'],
    ['Stimmung Es-Dur', 'E♭ major; table'],
    ['baisser si', 'B down'],
    ['lever fa', 'F up'],
    ['Leviers : mib lab', 'table; E -1; A -1'],
    ['accord en mi♭ majeur', 'E♭ major; table'],
  ])('“%s” says %s', (text, expected) => expect(said(text)).toBe(expected));

  it.each(['A', 'Andante', 'up', 'dolce', 'on the string'])('“%s” says nothing of levers', (text) => {
    expect(readLeverWords(text)).toBeNull();
    expect(looksLikeLeverWords(text)).toBe(false);
  });

  it.each(['lever Q up', 'flip the lever', 'F♯x4'])('“%s” seems to, and is not understood', (text) => {
    expect(readLeverWords(text)).toBeNull();
    expect(looksLikeLeverWords(text)).toBe(true);
  });
});

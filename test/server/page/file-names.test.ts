import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameAfterFile } from '../../../server/page/client/downloads/file-names.ts';

const STUDY = 'study edition';

describe('a download is named after the user’s file and the part', () => {
  it.each([
    ['nocturne.musicxml', ['Harp I'], null, 'nocturne - Harp I.pdf'],
    ['nocturne.mxl', ['Harp I'], STUDY, 'nocturne - Harp I - study edition.pdf'],
    ['Suite.MEI', ['II. Sicilienne', 'Harp'], null, 'Suite - II. Sicilienne - Harp.pdf'],
    ['book.abc', [], 'set', 'book - set.pdf'],
    ['nocturne.musicxml.xml', ['Harp'], null, 'nocturne - Harp.pdf'],
  ])('%s with %j and %s is %s', (file, within, what, name) => {
    expect(nameAfterFile(file, within, what, 'pdf')).toBe(name);
  });

  it('keeps a name that has no ending, and full stops that begin none', () => {
    expect(nameAfterFile('Nocturne', ['Harp'], null, 'pdf')).toBe('Nocturne - Harp.pdf');
    expect(nameAfterFile('Op. 9 No. 2', ['Harp'], null, 'pdf')).toBe('Op. 9 No. 2 - Harp.pdf');
    expect(nameAfterFile('v1.2.musicxml', ['Harp'], null, 'pdf')).toBe('v1.2 - Harp.pdf');
  });

  it('does not repeat a part that the file is named after, but tells Harp I from Harp II', () => {
    expect(nameAfterFile('nocturne_harp-1.mei', ['Harp 1'], null, 'pdf')).toBe('nocturne_harp-1.pdf');
    expect(nameAfterFile('nocturne Harp II.mei', ['Harp I'], null, 'pdf')).toBe(
      'nocturne Harp II - Harp I.pdf',
    );
  });

  it('takes out what file systems refuse, in the names of parts and movements too', () => {
    expect(nameAfterFile('AC/DC: "live"?.mxl', ['Harp 1/2', '..'], null, 'pdf')).toBe(
      'AC DC live - Harp 1 2.pdf',
    );
  });

  it('has a name for a file without one, and for a part without one', () => {
    expect(nameAfterFile('.musicxml', [''], null, 'pdf')).toBe('harp part.pdf');
    expect(nameAfterFile('', [], STUDY, 'pdf')).toBe('harp part - study edition.pdf');
  });

  it('is cut in the file’s own name alone where it is too long', () => {
    const name = nameAfterFile('夜'.repeat(300), ['竪琴'.repeat(60)], STUDY, 'pdf');
    expect(name).toMatch(/^夜+ - (竪琴){20} - study edition\.pdf$/u);
  });

  it('is taken by every file system, whatever file and part are called', () => {
    const odd = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme', maxLength: 400 }));
    fc.assert(
      fc.property(odd, fc.array(odd, { maxLength: 2 }), (file, within) => {
        const name = nameAfterFile(file, within, STUDY, 'musicxml');
        expect(name).toMatch(/ - study edition\.musicxml$/u);
        expect(name).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}/\\:*?"<>|%]/u);
        expect(name).not.toMatch(/^[. ]/u);
        expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(255);
      }),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dispositionOf, fileNameFrom } from '../../server/http/file-name.ts';

describe('a file name from a title', () => {
  it.each([
    ['Prélude: “Eau” 1/2', 'Prélude “Eau” 1 2'],
    ['../../etc/passwd', 'etc passwd'],
    ['  .hidden. ', 'hidden'],
    ['a\u0000b\r\nc\u202Ed', 'a b c d'],
    ['\ud800lone', 'lone'],
    ['', 'harp part'],
    ['...', 'harp part'],
  ])('%j is %j', (title, name) => {
    expect(fileNameFrom(title, 'harp part')).toBe(name);
  });

  it('is not endless', () => {
    expect([...fileNameFrom('𝄞'.repeat(300), 'harp part')].length).toBe(80);
  });
});

describe('the header that names the file', () => {
  it('gives the name in ASCII and in full (RFC 6266, 5: the example “€ rates”)', () => {
    expect(dispositionOf('€ rates')).toBe(`inline; filename="_ rates"; filename*=UTF-8''%E2%82%AC%20rates`);
  });

  it('encodes what RFC 8187 keeps for itself', () => {
    expect(dispositionOf("It's (a)")).toBe(`inline; filename="It's (a)"; filename*=UTF-8''It%27s%20%28a%29`);
  });

  it('does not bring back in ASCII what the name was rid of', () => {
    const header = dispositionOf(`${fileNameFrom('．．／AC／DC＂x', 'harp part')}.pdf`);
    expect(/filename="([^"]*)"/.exec(header)![1]).toBe('__AC_DC_x.pdf');
  });

  it('is one legal header line for any title', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (title) => {
        const header = dispositionOf(`${fileNameFrom(title, 'harp part')}.pdf`);
        expect(header).toMatch(
          /^inline; filename="[ !#-[\]-~]+"; filename\*=UTF-8''(?:[A-Za-z0-9!#$&+.^_`|~-]|%[0-9A-F]{2})+$/,
        );
        const full = decodeURIComponent(header.split("UTF-8''")[1]!);
        expect(full).toBe(`${fileNameFrom(title, 'harp part')}.pdf`);
      }),
    );
  });
});

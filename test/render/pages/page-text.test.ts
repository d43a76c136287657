import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseXml } from '../../../engine/xml/parse-xml.ts';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import { finishPage } from '../../../render/text/finish-page.ts';
import { textWidth } from '../../../render/text/glyphs.ts';
import { cases } from '../../thorough.ts';

/** A page with one text, in the form in which Verovio 6.3.0 writes it. */
const pageWith = (
  text: string,
): string => `<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm">
  <svg class="definition-scale" color="black" font-family="Times, serif" viewBox="0 0 21000 29700">
    <g id="t1" class="tempo">
      ${text}
    </g>
  </svg>
</svg>`;

const WORDS_SIZE = 400;
const MUSIC_SIZE = 700;
const words = (text: string): string => `<tspan id="w" class="text">
        <tspan font-size="${WORDS_SIZE}px">${text}</tspan>
      </tspan>`;
const music = (text: string): string =>
  `<tspan id="m" class="rend"><tspan font-family="Bravura" font-size="${MUSIC_SIZE}px">${text}</tspan></tspan>`;
const textAt = (attributes: string, ...content: readonly string[]): string =>
  pageWith(`<text ${attributes} font-size="0px" font-family="Times">
      ${content.join('\n      ')}
    </text>`);

const parsePage = (svg: string): XmlElement => {
  const parsed = parseXml(svg);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.value;
};

const finished = (svg: string): XmlElement => parsePage(finishPage(svg).svg);

/** The places of the outlines: x, y and the em in the page's unit. */
const signsOf = (root: XmlElement): readonly { x: number; y: number; em: number }[] =>
  descendantsNamed(root, 'path').map(({ attributes }) => {
    const [x, y, scale] = (attributes.transform?.match(/-?[\d.]+/g) ?? []).map(Number);
    return { x: x!, y: y!, em: scale! * 1000 };
  });

/** The stretches of words that were placed anew. */
const placedWords = (root: XmlElement): readonly { x: number; y: number; text: string }[] =>
  descendantsNamed(root, 'tspan')
    .filter(({ attributes }) => attributes['text-anchor'] === 'start')
    .map(({ attributes, text }) => ({ x: Number(attributes.x), y: Number(attributes.y), text }));

const wordsWidth = (text: string): number => textWidth(text, { style: 'regular', sizeUnits: WORDS_SIZE });
/** U+ECA5, the quarter note of a tempo mark: its advance in Bravura is 332 of 1000. */
const QUARTER_WIDTH = 0.332 * MUSIC_SIZE;

describe('music characters', () => {
  const tempo = textAt('x="1000" y="2000"', music('&#xECA5;'), words(' = '), words('72'));

  it("a tempo mark's note symbol becomes an outline where it stood", () => {
    expect(signsOf(finished(tempo))).toEqual([{ x: 1000, y: 2000, em: MUSIC_SIZE }]);
  });

  it('the words after a note symbol begin where it ends', () => {
    // U+00A0 is what Verovio writes for spaces at the ends of words.
    const [equals, number] = placedWords(finished(tempo.replace(' = ', '\u00a0=\u00a0')));
    expect(equals?.text).toBe('\u00a0=\u00a0');
    expect(equals?.x).toBeCloseTo(1000 + QUARTER_WIDTH, 1);
    expect(number?.x).toBeCloseTo(1000 + QUARTER_WIDTH + wordsWidth('\u00a0=\u00a0'), 1);
  });

  it.each([
    ['start', 0],
    ['middle', 0.5],
    ['end', 1],
  ])('a line with the anchor %s is aligned as a whole', (anchor, part) => {
    const root = finished(
      textAt(`x="5000" y="0" text-anchor="${anchor}"`, words('Lento'), music('&#xECA5;')),
    );
    const width = wordsWidth('Lento') + QUARTER_WIDTH;
    expect(placedWords(root)[0]?.x).toBeCloseTo(5000 - part * width, 1);
    expect(signsOf(root)[0]?.x).toBeCloseTo(5000 - part * width + wordsWidth('Lento'), 1);
  });

  it('a dynamic keeps the distance that its letter spacing gives to the words after it', () => {
    const spaced = music('&#xE520;').replace('font-size', 'letter-spacing="90px" font-size');
    const plain = placedWords(finished(textAt('x="0" y="0"', music('&#xE520;'), words('dolce'))));
    expect(
      placedWords(finished(textAt('x="0" y="0"', spaced, words('dolce'))))[0]!.x - plain[0]!.x,
    ).toBeCloseTo(90, 1);
  });

  it('raised text raises what follows, sign or words, until it is lowered', () => {
    const raised = `<tspan dy="-100">${music('&#xECA5;')}</tspan>`;
    const lowered = `<tspan dy="140">${words('low')}</tspan>`;
    const root = finished(textAt('x="0" y="1000"', words('a'), raised, lowered));
    expect(signsOf(root)[0]?.y).toBe(900);
    expect(placedWords(root).map(({ y }) => y)).toEqual([1000, 1040]);
    expect(finishPage(textAt('x="0" y="1000"', words('a'), raised, lowered)).svg).not.toContain('dy=');
  });

  it('a second line starts at its own place with the anchor it inherits', () => {
    const second = `<tspan class="lb" /><tspan x="5000" y="1400">${music('&#xECA5;')}</tspan>`;
    const root = finished(textAt('x="5000" y="1000" text-anchor="end"', words('Harp'), second));
    expect(signsOf(root)).toEqual([{ x: expect.closeTo(5000 - QUARTER_WIDTH, 1), y: 1400, em: MUSIC_SIZE }]);
    expect(placedWords(root)[0]?.x).toBeCloseTo(5000 - wordsWidth('Harp'), 1);
  });

  it('a step of an empty stretch moves nothing', () => {
    const root = finished(
      textAt('x="0" y="1000"', words('a'), '<tspan dy="500" x="9"></tspan>', music('&#xECA5;')),
    );
    expect(signsOf(root)[0]).toMatchObject({ x: expect.closeTo(wordsWidth('a'), 1), y: 1000 });
  });

  it('a text without x stands at the left edge', () => {
    expect(signsOf(finished(textAt('y="70"', music('&#xECA5;'))))[0]).toMatchObject({ x: 0, y: 70 });
  });

  it('a coloured sign keeps its colour', () => {
    const root = finished(textAt('x="0" y="0"', `<tspan fill="red">${music('&#xECA5;')}</tspan>`));
    expect(descendantsNamed(root, 'path')[0]?.attributes.fill).toBe('red');
  });

  it('bold italic words are measured in bold italic', () => {
    const styled = `<tspan font-weight="bold"><tspan font-style="italic">${words('Andante')}</tspan></tspan>`;
    const [sign] = signsOf(finished(textAt('x="0" y="0"', styled, music('&#xECA5;'))));
    expect(sign?.x).toBeCloseTo(textWidth('Andante', { style: 'bold-italic', sizeUnits: WORDS_SIZE }), 1);
  });
});

describe('accidentals in words', () => {
  it.each([
    ['flat', '♭'],
    ['natural', '♮'],
    ['sharp', '♯'],
  ])(
    'a %s in a title is drawn between its letters, about as tall as a capital, and found by a search',
    (_, sign) => {
      const root = finished(textAt('x="0" y="0"', words(`in B${sign} dur`)));
      const [drawn] = signsOf(root);
      const [before, unseen, after] = placedWords(root);
      expect([before?.text, unseen?.text, after?.text]).toEqual(['in B', sign, 'dur']);
      expect(drawn!.x).toBeGreaterThan(wordsWidth('in B'));
      expect(after!.x).toBeGreaterThan(drawn!.x + 0.168 * drawn!.em + wordsWidth(' '));
      expect(drawn!.em).toBeGreaterThan(WORDS_SIZE);
      expect(drawn!.em).toBeLessThan(1.3 * WORDS_SIZE);
    },
  );

  it('two accidentals in one word are both drawn', () => {
    expect(signsOf(finished(textAt('x="0" y="0"', words('B♭7♯9'))))).toHaveLength(2);
  });
});

describe('words', () => {
  it('a text without music keeps its place and its content, and names Tinos', () => {
    const svg = finishPage(textAt('x="10" y="20" text-anchor="end"', words('Harp &amp; voice'))).svg;
    expect(svg).toContain('>Harp &amp; voice</tspan>');
    expect(svg).toContain('<text x="10" y="20" text-anchor="end"');
    expect(svg).not.toContain('Times"');
    expect(svg.match(/font-family="Tinos, /g)).toHaveLength(2);
  });

  it('ampersands and angle brackets beside a sign stay characters', () => {
    const root = finished(textAt('x="0" y="0"', words('a &lt; b &amp; &#99; ♭')));
    expect(placedWords(root)[0]?.text).toBe('a < b & c');
  });

  it('letters that no shipped font has are named', () => {
    expect(finishPage(textAt('x="0" y="0"', words('漢 Harp é 字'))).missing).toEqual(['字', '漢']);
  });

  it('a title element inside a text is no text', () => {
    const root = finished(textAt('x="0" y="0"', '<title class="labelAttr">title</title>', music('&#xECA5;')));
    expect(signsOf(root)[0]?.x).toBe(0);
  });

  it('a page that is not XML is a bug that throws', () => {
    expect(() => finishPage('<svg><text></svg>')).toThrow('not well-formed');
  });

  it('a length in another unit than Verovio writes throws instead of being misplaced', () => {
    expect(() => finishPage(textAt('x="1 2 3" y="0"', music('&#xECA5;')))).toThrow('1 2 3');
  });
});

describe('laws, for texts of any characters', () => {
  const escapeMarkup = (text: string): string => text.replace(/[&<>]/g, (each) => `&#${each.charCodeAt(0)};`);
  const character = fc.oneof(
    fc.constantFrom(...'♭♮♯♩ = pf', '\u00a0', '&', '<', '"', '\ue520', '\ueca5', '\u{1d12a}'),
    fc
      .string({ unit: 'grapheme', minLength: 1, maxLength: 1 })
      .filter((each) => !/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/u.test(each)),
  );
  const text = fc.array(character, { maxLength: 12 }).map((characters) => escapeMarkup(characters.join('')));
  const page = fc
    .array(fc.tuple(fc.constantFrom(words, music), text), { minLength: 1, maxLength: 4 })
    .map((runs) =>
      textAt('x="100" y="200" text-anchor="middle"', ...runs.map(([write, each]) => write(each))),
    );

  it('a finished page is well-formed, shows no letter of the music font, and finishing it again changes nothing', () => {
    fc.assert(
      fc.property(page, (svg) => {
        const { svg: once } = finishPage(svg);
        expect(parseXml(once).ok).toBe(true);
        const shown = once.replace(
          /<tspan[^>]* fill="none" stroke="none">[♭♮♯\u{1d12a}\u{1d12b}]<\/tspan>/gu,
          '',
        );
        expect(shown).not.toMatch(/Bravura|[♩♭♮♯\ue520\ueca5\u{1d12a}]/u);
        expect(finishPage(once).svg).toBe(once);
      }),
      { numRuns: cases(300) },
    );
  });

  it('every id stays', () => {
    fc.assert(
      fc.property(page, (svg) => {
        const idsOf = (source: string): readonly string[] => source.match(/ id="\w+"/g) ?? [];
        expect(idsOf(finishPage(svg).svg)).toEqual(idsOf(svg));
      }),
      { numRuns: cases(100) },
    );
  });
});

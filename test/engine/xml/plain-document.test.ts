import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseFully } from '../../../engine/xml/full-document.ts';
import { XML_LIMITS } from '../../../engine/xml/parse-xml.ts';
import { readPlainDocument } from '../../../engine/xml/plain-document.ts';
import type { XmlElement } from '../../../engine/xml/tree.ts';
import { cases } from '../../thorough.ts';

/** All that an element says, its getters read. */
const told = ({ name, attributes, text, span, inner, children }: XmlElement): unknown => ({
  name,
  attributes: { ...attributes },
  text,
  span,
  inner,
  children: children.map(told),
});

const LIMITS = { depth: 6, elements: 40 };

/** What the full parser says of a text, and what the plain reader does; null where it leaves the text alone. */
const both = (text: string, limits = XML_LIMITS): readonly [full: unknown, plain: unknown] => {
  const full = parseFully(text, limits);
  const plain = readPlainDocument(text, limits);
  return [full.ok ? told(full.value) : full.problem.code, plain === null ? null : told(plain)];
};

const PLAIN: readonly string[] = [
  '<a/>',
  '<a></a >',
  '<a b="1" c=\'two "2"\'>text</a>\n',
  '\uFEFF<?xml version="1.0" encoding="UTF-8"?>\n<a>1</a>',
  '<?xml version="1.0" standalone="no"?><!DOCTYPE a PUBLIC "-//x//y" "z.dtd"><a><b/></a><!-- end -->',
  '<a>\n  <b>one</b>\n  two &amp; three &#9837;&#x1D12B; <!-- not this -->four<c/>five\n</a>',
  '<a b="&lt;&quot;&#10;x" c="1\r\n2\t3">4\r\n5\r6</a>',
  '<m:a xmlns:m="u" m:b = "1"><m:c/></m:a>',
  '<a><?program does this?>𝄫 in two code units</a>',
  '<a>&#32;<b> </b>&#160;</a>',
  '<a>x > y ]] z</a>',
];

const NOT_PLAIN: readonly string[] = [
  '',
  'text',
  '<a>',
  '<a></b>',
  '<a></ab>',
  '<a/><b/>',
  '<a/>text',
  '<a b="1" b="2"/>',
  '<a b=1/>',
  '<a b/>',
  '<a b="1"c="2"/>',
  '<a b="<"/>',
  '<a b="1/>',
  '<a>&nbsp;</a>',
  '<a>&#0;</a>',
  '<a>&#xD800;</a>',
  '<a>&</a>',
  '<a>]]></a>',
  '<a><![CDATA[1]]></a>',
  '<a>\u0001</a>',
  '<a>\uD834</a>',
  '<a b="\uFFFE"/>',
  '<a><!-- a -- b --></a>',
  '<a><!-- \u0001 --></a>',
  '<a><!- a --></a>',
  '<a><!-- a',
  '<a><?xml version="1.0"?></a>',
  ' <?xml version="1.0"?><a/>',
  '<?xml version="1.1"?><a/>',
  '<?xml version="1.0\'?><a/>',
  '<!DOCTYPE a [<!ENTITY b "c">]><a/>',
  '<!DOCTYPE a "><a/>',
  '<a/><!DOCTYPE a>',
  '<é/>',
  '<a/',
  '</a>',
  '<',
];

describe('a plainly written document', () => {
  for (const text of PLAIN) {
    test(`is read as the full parser reads it: ${JSON.stringify(text).slice(0, 60)}`, () => {
      const [full, plain] = both(text);
      expect(plain).not.toBeNull();
      expect(plain).toEqual(full);
    });
  }

  for (const text of NOT_PLAIN) {
    test(`is not what this is, and it is left to the full parser: ${JSON.stringify(text).slice(0, 60)}`, () => {
      expect(readPlainDocument(text, XML_LIMITS)).toBeNull();
    });
  }

  test('is left to the full parser where it passes a limit', () => {
    const deep = `${'<a>'.repeat(7)}${'</a>'.repeat(7)}`;
    const many = `<a>${'<b/>'.repeat(40)}</a>`;
    expect(both(deep, LIMITS)).toEqual(['limit-exceeded', null]);
    expect(both(`<a><a><a><a><a><a><b/></a></a></a></a></a></a>`, LIMITS)).toEqual(['limit-exceeded', null]);
    expect(both(many, LIMITS)).toEqual(['limit-exceeded', null]);
  });

  test('has more attributes than are compared: the full parser reads them', () => {
    const attributes = Array.from({ length: 65 }, (_, i) => `a${i}="${i}"`).join(' ');
    expect(readPlainDocument(`<a ${attributes}/>`, XML_LIMITS)).toBeNull();
  });

  test('whatever is put together of pieces of documents, the reader says what the full parser says, or nothing', () => {
    const pieces = [
      ...[
        '<a>',
        '</a>',
        '<b',
        '<b/>',
        '</b>',
        '<b c="1"',
        ' d="&amp;"',
        " e='\r\n'",
        '>',
        '/>',
        '"',
        "'",
        '=',
        ' ',
        '\n',
        '\r',
      ],
      ...[
        '&#65;',
        '&amp;',
        '&',
        ';',
        ']]>',
        '<!--',
        '-->',
        '--',
        '<?p q?>',
        '<?xml version="1.0"?>',
        '<!DOCTYPE a>',
        'text',
      ],
      ...['\u266D', '\uD834\uDD2B', '\uD834', '\u0000', '\uFEFF', '<![CDATA[', '<', 'x:y'],
    ];
    const document = fc.tuple(
      fc.constantFrom('', '<a>', '<a><b>'),
      fc.array(fc.constantFrom(...pieces), { maxLength: 12 }),
      fc.constantFrom('', '</a>', '</b></a>'),
    );
    fc.assert(
      fc.property(document, ([before, inside, after]) => {
        const [full, plain] = both(`${before}${inside.join('')}${after}`, LIMITS);
        if (plain !== null) expect(plain).toEqual(full);
      }),
      { numRuns: cases(3000) },
    );
  });
});

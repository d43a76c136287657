import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, compare, rationalKey } from '../../../../engine/music/rational.ts';
import { problemMessage } from '../../../../engine/problem.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { openScore } from '../../../../engine/score/open.ts';
import { parseXml } from '../../../../engine/xml/parse-xml.ts';
import type { XmlElement } from '../../../../engine/xml/tree.ts';
import { cases } from '../../../thorough.ts';
import { buildArchive, encode } from '../file/archive-builder.ts';
import {
  BACKWARD,
  backup,
  bar,
  barline,
  buildHarp,
  buildScore,
  direction,
  FORWARD,
  forward,
  note,
  readHarp,
  readProblem,
  readScore,
  rest,
  words,
} from './musicxml-builder.ts';

const raw = (pitch: string, duration: string): string =>
  `<note><pitch>${pitch}</pitch><duration>${duration}</duration></note>`;

const C4 = '<step>C</step><octave>4</octave>';

describe('a value that is none is refused with its place', () => {
  it.each([
    ['duration', raw(C4, '-1')],
    ['duration', raw(C4, 'NaN')],
    ['duration', raw(C4, '1e9')],
    ['duration', raw(C4, '')],
    ['duration', raw(C4, '99999999999999999999')],
    ['duration', '<note><pitch><step>C</step><octave>4</octave></pitch></note>'],
    ['note name', raw('<step>H</step><octave>4</octave>', '1')],
    ['note name', raw('<octave>4</octave>', '1')],
    ['octave', raw('<step>C</step><octave>40</octave>', '1')],
    ['octave', raw('<step>C</step>', '1')],
    ['alteration', raw('<step>C</step><alter>Infinity</alter><octave>4</octave>', '1')],
    ['staff number', `<note><pitch>${C4}</pitch><duration>1</duration><staff>0</staff></note>`],
    ['number of divisions', '<attributes><divisions>0</divisions></attributes>'],
    ['number of divisions', '<attributes><divisions>-24</divisions></attributes>'],
    ['number of staves', '<attributes><staves>1000000</staves></attributes>'],
    ['key signature', '<attributes><key><fifths>x</fifths></key></attributes>'],
    ['number of beats', '<attributes><time><beats>0</beats><beat-type>4</beat-type></time></attributes>'],
    ['beat type', '<attributes><time><beats>4</beats><beat-type>0</beat-type></time></attributes>'],
    ['time signature', '<attributes><time><beats>4</beats></time></attributes>'],
    ['transposition', '<attributes><transpose><chromatic>1e6</chromatic></transpose></attributes>'],
    ['number of times', barline('<repeat direction="backward" times="1000000000"/>')],
    [
      'number of tremolo marks',
      note('C4', 1, { notations: '<ornaments><tremolo>nine</tremolo></ornaments>' }),
    ],
  ])('%s: %s', (what, music) => {
    const xml = buildHarp(`${note('C4')}\n${music}`);
    const problem = readProblem(xml);
    expect(problem.code).toBe('bad-value');
    if (problem.code !== 'bad-value') return;
    expect(problem.what).toContain(what);
    // The builder puts the music on the third line of the text.
    expect(problem.line).toBe(3);
    expect(problem.column).toBeGreaterThan(0);
    expect(problemMessage(problem)).toContain('line 3');
  });

  it('also in another part than the harp’s', () => {
    const flute = { id: 'P1', name: 'Flute', bars: [raw(C4, 'x')] };
    expect(readProblem(buildScore([flute, { id: 'P2', name: 'Harp', bars: [note('C4')] }])).code).toBe(
      'bad-value',
    );
  });
});

describe('times too fine to be told exactly are refused, not rounded', () => {
  it('in one bar', () => {
    const odd = (divisions: number): string =>
      `<attributes><divisions>${divisions}</divisions></attributes>${raw(C4, '1')}`;
    const problem = readProblem(buildHarp([9973, 9967, 9949].map(odd).join('')));
    expect(problem.code).toBe('bad-value');
  });

  it('over several bars', () => {
    const bars = [997, 991, 983, 977].map(
      (divisions) => `<attributes><divisions>${divisions}</divisions></attributes>${raw(C4, '1')}`,
    );
    expect(readProblem(buildHarp(...bars))).toMatchObject({ code: 'bad-value', line: 4 });
  });

  it('but tuplets of 5, 7, 11 and 13 in one score are not', () => {
    const tuplet = (count: number): string =>
      `<attributes><divisions>${count}</divisions></attributes>${raw(C4, '1').repeat(count)}`;
    const score = readHarp(`${tuplet(5)}${tuplet(7)}`, `${tuplet(11)}${tuplet(13)}${tuplet(16)}`);
    expect(score.notes).toHaveLength(5 + 7 + 11 + 13 + 16);
  });
});

it('a backup to before the bar goes to its start, with a remark', () => {
  const score = readHarp(note('C4', 1) + backup(3) + note('E4', 1));
  expect(score.notes.map((each) => rationalKey(each.onset))).toEqual(['0', '0']);
  expect(score.remarks.some((each) => each.message.includes('backup'))).toBe(true);
});

it('a harp without notes is refused by name', () => {
  expect(readProblem(buildHarp(rest(4)))).toMatchObject({ code: 'no-notes', part: 'Harp' });
  const listed =
    '<score-partwise><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list></score-partwise>';
  expect(readProblem(listed)).toMatchObject({ code: 'no-notes', part: 'Harp' });
});

/** A score in which every feature of the reader has something to do. */
const RICH = buildScore([
  {
    id: 'P1',
    name: 'Flute',
    bars: [
      `${direction('<metronome><beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome>')}${note('A5', 4)}`,
      FORWARD + note('A5', 4),
      `${barline('<ending number="1" type="start"/>', 'left')}${note('A5', 4)}${barline('<ending number="1" type="stop"/><repeat direction="backward" times="2"/>')}`,
      `${barline('<ending number="2" type="start"/>', 'left')}${note('A5', 4)}<sound dacapo="yes"/>`,
    ],
  },
  {
    id: 'P2',
    name: 'Harp',
    bars: [
      bar(
        `${words('E♭')}${note('Eb4', 2, { id: 'a', ties: ['start'], notations: '<arpeggiate/><glissando type="start" number="1"/>' })}${note('G4', 2, { chord: true })}${note('Eb4', 2, { ties: ['stop'], notations: '<glissando type="stop" number="1"/><ornaments><trill-mark/><accidental-mark>flat</accidental-mark></ornaments>' })}${backup(4)}${note('C3', 4, { staff: 2, voice: '2', hidden: true })}`,
        {
          attributes:
            '<key><fifths>-3</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves><transpose><chromatic>0</chromatic></transpose>',
        },
      ),
      `${note('C5', 0, { grace: 'slashed' })}${note('D5', 1 / 3)}${note('E5', 2 / 3, { cue: true })}${forward(1)}${direction('<damp-all/>', '<offset>10</offset>')}${note('C4', 2, { notations: '<technical><harmonic><natural/></harmonic></technical><ornaments><tremolo type="start">2</tremolo></ornaments>' })}`,
      bar(rest(4), {
        attributes: '<measure-style><measure-repeat type="start">1</measure-repeat></measure-style>',
      }),
      `${direction('<harp-pedals><pedal-tuning><pedal-step>D</pedal-step><pedal-alter>1</pedal-alter></pedal-tuning></harp-pedals>')}${note('D#4', 4)}${BACKWARD}`,
    ],
  },
]);

/** What must hold of any score that was read, whatever was in the file. */
const checkScore = (score: Score): void => {
  const ids = new Set(score.notes.map((each) => each.id));
  expect(ids.size).toBe(score.notes.length);
  for (const each of score.notes) {
    expect(score.bars[each.bar]).toBeDefined();
    expect(ids.has(each.chord)).toBe(true);
    if (each.tiedFrom !== null) expect(ids.has(each.tiedFrom)).toBe(true);
    expect(compare(each.onset, add(each.onset, each.duration))).toBeLessThanOrEqual(0);
    expect(score.source.text.slice(each.span.start, each.span.start + 1)).toBe('<');
  }
  for (const sweep of score.sweeps) expect(ids.has(sweep.from) && ids.has(sweep.to)).toBe(true);
  for (const [index, each] of score.bars.entries()) {
    const next = score.bars[index + 1];
    if (next !== undefined) expect(next.onset).toEqual(add(each.onset, each.duration));
  }
  expect(score.tempo[0]!.at.num).toBe(0);
  expect(score.playOrder.length).toBeGreaterThan(0);
};

const checkInput = (bytes: Uint8Array): void => {
  const result = openScore(bytes);
  if (result.ok) checkScore(result.value);
  else expect(problemMessage(result.problem).length).toBeGreaterThan(10);
};

const HOSTILE_VALUES = [
  '',
  '0',
  '-1',
  'NaN',
  '1e400',
  '999999999',
  '0.001',
  '𝄪',
  'constructor',
  '__proto__',
  'X',
  '7',
  '13',
];

/** Every stretch of the text that is an element, from the outside in. */
const spansOf = (xml: string): readonly XmlElement[] => {
  const parsed = parseXml(xml);
  const found: XmlElement[] = [];
  const visit = (element: XmlElement): void => {
    found.push(element);
    for (const each of element.children) visit(each);
  };
  if (parsed.ok) visit(parsed.value);
  return found;
};

describe('any input is read or refused, never thrown at', () => {
  it('the rich score itself is read', () => {
    checkInput(encode(RICH));
    expect(openScore(encode(RICH)).ok).toBe(true);
  });

  it('with any characters changed', () => {
    const change = fc.tuple(fc.nat(RICH.length - 1), fc.string({ minLength: 0, maxLength: 3 }));
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        const text = changes.reduce((xml, [at, piece]) => xml.slice(0, at) + piece + xml.slice(at + 1), RICH);
        checkInput(encode(text));
      }),
      { numRuns: cases(300) },
    );
  });

  it('with any bytes changed or cut off', () => {
    const bytes = encode(RICH);
    const change = fc.tuple(fc.nat(bytes.length - 1), fc.nat(255));
    fc.assert(
      fc.property(fc.array(change, { maxLength: 3 }), fc.nat(bytes.length), (changes, length) => {
        const mutated = bytes.slice(0, length);
        for (const [at, value] of changes) mutated[at] = value;
        checkInput(mutated);
      }),
      { numRuns: cases(200) },
    );
  });

  it('with elements lost, doubled or moved, and values replaced', () => {
    const change = fc.record({
      kind: fc.constantFrom(
        'lose' as const,
        'double' as const,
        'move' as const,
        'value' as const,
        'attribute' as const,
      ),
      at: fc.nat(),
      to: fc.nat(),
      value: fc.constantFrom(...HOSTILE_VALUES),
    });
    const apply = (
      xml: string,
      { kind, at, to, value }: typeof change extends fc.Arbitrary<infer T> ? T : never,
    ): string => {
      const elements = spansOf(xml);
      const element = elements[at % Math.max(1, elements.length)];
      if (element === undefined) return xml;
      const { start, end } = element.span;
      const text = xml.slice(start, end);
      if (kind === 'lose') return xml.slice(0, start) + xml.slice(end);
      if (kind === 'double') return xml.slice(0, end) + text + xml.slice(end);
      if (kind === 'value') return xml.slice(0, element.inner.start) + value + xml.slice(element.inner.end);
      if (kind === 'attribute')
        return xml.slice(0, start) + text.replace(/="[^"]*"/u, `="${value}"`) + xml.slice(end);
      const target = elements[to % elements.length]!.span.start;
      return target >= start ? xml : xml.slice(0, target) + text + xml.slice(target, start) + xml.slice(end);
    };
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        checkInput(encode(changes.reduce(apply, RICH)));
      }),
      { numRuns: cases(400) },
    );
  });

  it('made of any numbers in durations and divisions', () => {
    const number = fc.oneof(
      fc.integer({ min: 1, max: 200_000 }).map(String),
      fc.double({ min: 0, max: 1e7, noNaN: true }).map(String),
    );
    const piece = fc.oneof(
      number.map((value) => raw(C4, value)),
      number.map((value) => `<attributes><divisions>${value}</divisions></attributes>`),
      number.map((value) => `<backup><duration>${value}</duration></backup>`),
      number.map((value) => direction('<damp/>', `<offset>-${value}</offset>`)),
      fc.constant('</measure><measure>'),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
        checkInput(encode(buildHarp(note('C4') + pieces.join(''))));
      }),
      { numRuns: cases(500) },
    );
  });

  it('of any bytes at all, in an archive or not', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        checkInput(bytes);
        checkInput(buildArchive({ 'a.xml': bytes }));
      }),
      { numRuns: cases(300) },
    );
  });
});

describe('a small file cannot become a huge score', () => {
  it('by signs that repeat a long bar many times', () => {
    const sign = '<measure-style><measure-repeat type="start">1</measure-repeat></measure-style>';
    const long = note('C4', 1 / 16).repeat(2000);
    const bars = Array.from({ length: 200 }, () => '');
    expect(readProblem(buildHarp(long, bar('', { attributes: sign }), ...bars))).toMatchObject({
      code: 'limit-exceeded',
      what: 'elements',
    });
  });

  it('by a bar-sorted score in which every bar names another part', () => {
    const measures = Array.from(
      { length: 10_000 },
      (_, index) => `<measure><part id="p${index}">${index === 0 ? raw(C4, '1') : ''}</part></measure>`,
    );
    const list = '<part-list><score-part id="p0"><part-name>Harp</part-name></score-part></part-list>';
    expect(readScore(`<score-timewise>${list}${measures.join('')}</score-timewise>`).bars).toHaveLength(
      10_000,
    );
  });
});

it('a deep score is refused by its depth, a long one is read in good time', () => {
  expect(readProblem('<a>'.repeat(300)).code).toBe('limit-exceeded');
  const bars = Array.from({ length: 3000 }, () => note('C4', 1).repeat(4));
  const start = performance.now();
  expect(readHarp(...bars).notes).toHaveLength(12_000);
  expect(performance.now() - start).toBeLessThan(20_000);
});

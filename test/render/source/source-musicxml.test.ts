import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatChange } from '../../../engine/harp/setting.ts';
import { LETTERS, type Letter } from '../../../engine/music/pitch.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { TextEncoding } from '../../../engine/score/model/source.ts';
import { openScore } from '../../../engine/score/open.ts';
import type { Marking } from '../../../render/markings/markings.ts';
import { annotateSource } from '../../../render/source/annotate-source.ts';
import {
  backup,
  bar,
  buildHarp,
  buildScore,
  DIVISIONS,
  note,
  readScore,
  rest,
  words,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../../thorough.ts';
import { PLAIN_CHANGE } from '../marking-builder.ts';
import { annotateFile } from './annotate-file.ts';

const annotate = (bytes: Uint8Array, others: 'keep' | 'replace' = 'keep') => {
  const done = annotateFile(bytes, { others });
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const decode = (bytes: Uint8Array): string => new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);

const annotateText = (xml: string, others: 'keep' | 'replace' = 'keep'): string =>
  decode(annotate(encodeText(xml, 'utf-8'), others).bytes);

/** What was inserted, found by its id alone: the white space before it belongs to it. */
const withoutInsertions = (xml: string): string =>
  xml.replace(/\s*<direction [^>]*id="tringle-[^>]*>.*?<\/direction>/gs, '');

/** Markings as read: time and stated pedals. */
const markingsOf = (score: Score): readonly string[] =>
  score.markings.map(({ at, positions }) =>
    [
      rationalKey(at),
      ...LETTERS.filter((l) => l in positions).map((l) => formatChange(l, positions[l]!)),
    ].join(' '),
  );

const writtenMarkings = (markings: readonly Marking[]): readonly string[] =>
  markings.map((marking) => {
    const positions =
      marking.kind === 'setting'
        ? LETTERS.map((letter) => ({ letter, position: marking.setting[letter] }))
        : [...marking.left, ...marking.right].sort(
            (a, b) => LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter),
          );
    return [
      rationalKey(marking.at),
      ...positions.map((each) => formatChange(each.letter, each.position)),
    ].join(' ');
  });

const insertionsIn = (xml: string): readonly string[] =>
  [...xml.matchAll(/<direction [^>]*id="tringle-.*?<\/direction>/gs)].map((match) => match[0]);

const TWO_BARS = buildHarp(
  bar(`${note('C4', 4)}${backup(4)}${note('C3', 4, { staff: 2, voice: '2' })}`, {
    attributes: '<staves>2</staves>',
  }),
  `${note('C#4', 2)}${note('F4', 2)}${backup(4)}${note('C#3', 2, { staff: 2, voice: '2' })}${note('F#3', 2, { staff: 2, voice: '2' })}`,
);

describe('markings in MusicXML', () => {
  it('state the full setting in the order D C B E F G A', () => {
    const [setting] = insertionsIn(annotateText(buildHarp(note('Bb4', 4))));
    expect(
      [...setting!.matchAll(/<pedal-step>(.)<\/pedal-step><pedal-alter>(-?\d)</g)].map((m) => m[1]! + m[2]),
    ).toEqual(['D0', 'C0', 'B-1', 'E0', 'F0', 'G0', 'A0']);
  });

  it('write a change in words with its real accidental, below the lowest staff, with the wedge that the pages have where it is made with its note', () => {
    const inserted = insertionsIn(annotateText(TWO_BARS));
    expect(inserted[1]).toContain('placement="below"');
    expect(inserted[1]).toContain('<words default-y="-75" font-weight="bold">▸C♯</words>');
    expect(inserted[1]).toMatch(
      /<\/direction-type>(<offset>[-\d.]+<\/offset>)?<staff>2<\/staff><\/direction>$/,
    );
  });

  it('stand before the note of the lower staff at their moment, without an offset', () => {
    const xml = annotateText(
      buildHarp(
        bar(
          `${note('C4', 4)}${backup(4)}${note('D3', 2, { staff: 2, voice: '2' })}${note('D#3', 2, { staff: 2, voice: '2' })}`,
        ),
      ),
    );
    expect(xml).toMatch(
      /<words [^>]*>▸D♯<\/words><\/direction-type><staff>2<\/staff><\/direction><note><pitch><step>D<\/step><alter>1/,
    );
  });

  it('put the right foot above the left', () => {
    const score = readScore(TWO_BARS);
    const marking: Marking = {
      kind: 'change',
      id: 'marking-1',
      at: { num: 4, den: 1 },
      bar: 1,
      beat: { num: 1, den: 1 },
      graceNote: null,
      left: [{ letter: 'B', position: -1 }],
      right: [
        { letter: 'E', position: 1 },
        { letter: 'A', position: 0 },
      ],
      ...PLAIN_CHANGE,
    };
    const done = annotateSource(score, [marking], { others: 'keep' });
    expect(done.ok && insertionsIn(done.value.text)[0]).toMatch(/<words [^>]*>E♯ A♮&#10;B♭<\/words>/);
    expect(done.ok && markingsOf(readScore(done.value.text))).toEqual(['4 B♭ E♯ A♮']);
  });

  it.each([
    ['below', '<direction placement="below"', '<staff>2</staff>'],
    ['above', '<direction placement="above"', '<staff>1</staff>'],
    ['between', '<direction placement="above"', '<staff>2</staff>'],
  ] as const)('stand %s the staves', (placement, direction, staff) => {
    const score = readScore(buildHarp(note('C4', 4) + backup(4) + note('C3', 4, { staff: 2, voice: '2' })));
    expect(score.harp.staves).toBe(2);
    const done = annotateSource(score, [changeAt(score, { num: 0, den: 1 }, 'D', 1)], {
      others: 'keep',
      placement,
    });
    const [inserted] = done.ok ? insertionsIn(done.value.text) : [];
    expect(inserted).toContain(direction);
    expect(inserted).toContain(staff);
  });

  it('come with an offset where no note begins at their moment', () => {
    const score = readScore(buildHarp(note('C4', 4)));
    const marking = changeAt(score, { num: 5, den: 3 }, 'C', 1);
    const done = annotateSource(score, [marking], { others: 'keep' });
    expect(done.ok && insertionsIn(done.value.text)[0]).toContain('<offset>400</offset>');
    expect(done.ok && markingsOf(readScore(done.value.text))).toEqual(['5/3 C♯']);
  });

  it('round an offset that divisions cannot tell towards the bar’s start, never past the note', () => {
    const score = readScore(buildHarp(note('C4', 4)));
    const done = annotateSource(score, [changeAt(score, { num: 1, den: 7 }, 'C', 1)], { others: 'keep' });
    const [read] = done.ok ? readScore(done.value.text).markings : [];
    expect(read!.at.num / read!.at.den).toBeLessThan(1 / 7);
    expect(read!.at.num / read!.at.den).toBeGreaterThan(1 / 7 - 0.001);
  });

  it('stand before the grace note that needs them, and behind it where they are for the main note', () => {
    const xml = buildHarp(note('C4', 2) + note('D#4', 0, { grace: 'plain', id: 'g' }) + note('C4', 2));
    const score = readScore(xml);
    const at = { num: 2, den: 1 };
    const before = annotateSource(score, [{ ...changeAt(score, at, 'D', 1), graceNote: 'g' }], {
      others: 'keep',
    });
    const behind = annotateSource(score, [changeAt(score, at, 'D', 0)], { others: 'keep' });
    expect(before.ok && before.value.text).toMatch(/D♯<\/words><\/direction-type><\/direction><note id="g">/);
    expect(behind.ok && behind.value.text).toMatch(
      /id="g">(?:(?!<\/note>).)*<\/note><direction [^>]*><direction-type><words [^>]*>D♮/,
    );
  });

  it('keep their order where they share a moment, whatever voice comes first in the file', () => {
    const lower = { staff: 2, voice: '3' };
    const xml = buildHarp(
      note('C4', 2, { ...lower, voice: '2' }) +
        note('C4', 2, { ...lower, voice: '2' }) +
        backup(4) +
        note('C4', 2, lower) +
        note('D#4', 0, { ...lower, grace: 'plain', id: 'g' }) +
        note('C4', 2, lower),
    );
    const score = readScore(xml);
    const first = { ...changeAt(score, { num: 2, den: 1 }, 'D', 1), graceNote: 'g' };
    const second = { ...changeAt(score, { num: 2, den: 1 }, 'D', 0), id: 'marking-2' };
    const done = annotateSource(score, [first, second], { others: 'keep' });
    expect(done.ok && markingsOf(readScore(done.value.text))).toEqual(['2 D♯', '2 D♮']);
  });

  it('go to the lower of two parts that are one harp, and are read back', () => {
    const xml = buildScore([
      { id: 'P1', name: 'Harp RH', bars: [note('C5', 4), note('C#5', 4)] },
      { id: 'P2', name: 'Harp LH', bars: [note('E3', 4), note('F3', 4)] },
    ]);
    const done = annotate(encodeText(xml, 'utf-8'));
    const text = decode(done.bytes);
    expect(done.score.harp.partIds).toEqual(['P1', 'P2']);
    expect(text.indexOf('tringle-')).toBeGreaterThan(text.indexOf('<part id="P2">'));
    expect(text).not.toContain('<staff>2</staff><direction');
    expect(markingsOf(readScore(text))).toEqual(writtenMarkings(done.markings));
  });

  it('find their bar in a score that is sorted by bar', () => {
    const barOf = (n: number, content: string, more = ''): string =>
      `<measure number="${n}"><part id="P1">${more}${content}</part></measure>`;
    const xml = `<score-timewise version="4.0"><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list>${barOf(
      1,
      note('C4', 4),
      '<attributes><divisions>240</divisions></attributes>',
    )}${barOf(2, note('C#4', 4))}</score-timewise>`;
    const text = annotateText(xml);
    expect(withoutInsertions(text)).toBe(xml);
    expect(markingsOf(readScore(text))[1]).toMatch(/ C♯$/);
  });

  it('find room beside a bar whose element is empty', () => {
    const xml = buildHarp(note('C4', 4), note('D4', 4)).replace(
      /<measure number="2">.*?<\/measure>/s,
      '<measure number="2"/>',
    );
    const score = readScore(xml);
    const done = annotateSource(score, [changeAt(score, { num: 5, den: 1 }, 'D', 1)], { others: 'keep' });
    expect(done.ok && markingsOf(readScore(done.value.text))).toEqual(['5 D♯']);
    expect(done.ok && withoutInsertions(done.value.text)).toBe(xml);
  });

  it('leave another harp’s markings in the same file alone', () => {
    const xml = buildScore([
      { id: 'P1', name: 'Harp I', bars: [note('C4', 4), note('C#4', 4)] },
      { id: 'P2', name: 'Harp II', bars: [note('F4', 4), note('F#4', 4)] },
    ]);
    const first = annotateFile(encodeText(xml, 'utf-8'), { others: 'keep', part: 'P1' });
    const both = annotateFile(first.ok ? first.value.bytes : new Uint8Array(), {
      others: 'keep',
      part: 'P2',
    });
    if (!both.ok) throw new Error(JSON.stringify(both.problem));
    const text = decode(both.value.bytes);
    const ids = [...text.matchAll(/id="(tringle-[^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toHaveLength(4);
    expect(withoutInsertions(text)).toBe(xml);
  });
});

const changeAt = (score: Score, at: Marking['at'], letter: Letter, position: -1 | 0 | 1): Marking => {
  const change = [{ letter, position }];
  const isLeft = 'DCB'.includes(letter);
  return {
    kind: 'change',
    id: 'marking-1',
    at,
    bar: score.bars.findLastIndex((each) => each.onset.num / each.onset.den <= at.num / at.den),
    beat: { num: 1, den: 1 },
    graceNote: null,
    left: isLeft ? change : [],
    right: isLeft ? [] : change,
    ...PLAIN_CHANGE,
  };
};

describe('the file of the user', () => {
  const indented = TWO_BARS.replaceAll('<note>', '\n      <note>').replaceAll(
    '</measure>',
    '\n    </measure>',
  );

  it.each<[string, string, TextEncoding]>([
    ['plain', TWO_BARS, 'utf-8'],
    ['indented', indented, 'utf-8'],
    ['with Windows line ends', indented.replaceAll('\n', '\r\n'), 'utf-8'],
    ['with a byte order mark', `\uFEFF${indented}`, 'utf-8'],
    ['in UTF-16', `\uFEFF${indented.replace('UTF-8', 'UTF-16')}`, 'utf-16le'],
    ['in big-endian UTF-16', `\uFEFF${indented.replace('UTF-8', 'UTF-16')}`, 'utf-16be'],
    ['in ISO-8859-1', indented.replace('UTF-8', 'ISO-8859-1').replace('Harp', 'Harp é'), 'iso-8859-1'],
    ['with comments between notes', indented.replaceAll('<note>', '<!-- a > b -->\n<note>'), 'utf-8'],
  ])('comes back %s, byte for byte, when the insertions are taken out', (_, xml, encoding) => {
    const bytes = encodeText(xml, encoding);
    const once = annotate(bytes);
    const opened = openScore(once.bytes);
    if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
    expect(opened.value.source.encoding).toBe(encoding);
    expect(markingsOf(opened.value)).toEqual(writtenMarkings(once.markings));
    expect(encodeText(withoutInsertions(opened.value.source.text), encoding)).toEqual(bytes);
    const emptied = annotateSource(opened.value, [], { others: 'keep' });
    expect(emptied.ok && emptied.value.bytes).toEqual(bytes);
    expect(annotate(once.bytes).bytes).toEqual(once.bytes);
  });

  it('is given markings afresh when its notes changed, none of them twice', () => {
    const before = annotateText(buildHarp(note('C4', 4), note('C#4', 4)));
    const edited = before.replace('<alter>1</alter>', '');
    const again = annotateText(edited);
    expect(again).toBe(annotateText(withoutInsertions(edited)));
    expect(insertionsIn(again)).toHaveLength(1);
  });

  it('keeps or loses the markings of others as the user says, and nothing else in their directions', () => {
    const shared =
      '<direction><direction-type><words>C♯</words></direction-type><direction-type><dynamics><p/></dynamics></direction-type></direction>';
    const xml = buildHarp(words('D♮ E♭') + note('C4', 4), shared + note('C#4', 4));
    expect(withoutInsertions(annotateText(xml, 'keep'))).toBe(xml);
    const replaced = withoutInsertions(annotateText(xml, 'replace'));
    expect(replaced).toBe(
      xml.replace(words('D♮ E♭'), '').replace('<direction-type><words>C♯</words></direction-type>', ''),
    );
    expect(readScore(replaced).markings).toEqual([]);
  });

  it('names each marking of others that it takes out, with its place', () => {
    const diagram =
      '<direction><direction-type><harp-pedals><pedal-tuning><pedal-step>D</pedal-step><pedal-alter>0</pedal-alter></pedal-tuning></harp-pedals></direction-type></direction>';
    const bars = [diagram + note('C4', 4), note('C#4', 4), words('D♮ E♭') + note('C4', 4)];
    const opened = openScore(encodeText(buildHarp(...bars), 'utf-8'));
    if (!opened.ok) throw new Error(opened.problem.code);
    const told = (others: 'keep' | 'replace') => {
      const done = annotateSource(opened.value, [], { others });
      if (!done.ok) throw new Error(done.problem.code);
      return {
        removed: done.value.edits.filter(({ put }) => put === '').length,
        remarks: done.value.remarks.map(({ barNumber, message }) => `${barNumber} ${message}`),
      };
    };
    expect(told('keep')).toEqual({ removed: 0, remarks: [] });
    const { removed, remarks } = told('replace');
    expect(removed).toBe(remarks.length);
    expect(remarks[0]).toMatch(/^1 .*a pedal diagram/);
    expect(remarks[1]).toMatch(/^3 .*“D♮ E♭”/);
  });

  it('has full settings in words as well where they are wanted, and is the same file without them', () => {
    const xml = buildHarp(note('C4', 4), note('C#4', 4));
    const done = annotateFile(encodeText(xml, 'utf-8'), { others: 'keep', settings: 'both' });
    if (!done.ok) throw new Error(done.problem.code);
    const written = decode(done.value.bytes);
    expect(written).toMatch(
      /<\/harp-pedals><\/direction-type><direction-type><words [^>]*>D♮ C♮ B♮ \| E♮ F♮ G♮ A♮</,
    );
    expect(withoutInsertions(written)).toBe(xml);
    expect(readScore(written).markings.map(({ form }) => form)).toEqual(['harp-pedals', 'words']);
    const again = annotateFile(done.value.bytes, { others: 'keep', settings: 'both' });
    expect(again.ok && decode(again.value.bytes)).toBe(written);
  });

  it('keeps the sound of a direction whose words go', () => {
    const xml = buildHarp(words('D♮ E♭', '<sound tempo="90"/>') + note('C4', 4));
    const replaced = withoutInsertions(annotateText(xml, 'replace'));
    expect(replaced).toContain('</attributes><sound tempo="90"/><note>');
    expect(readScore(replaced).tempo[0]!.quartersPerMinute).toBe(90);
  });

  it('is not planned by markings of ours in it', () => {
    const sweep = (type: string): string => `<glissando type="${type}" number="1"/>`;
    const xml = buildHarp(
      note('C4', 2, { notations: sweep('start') }) + note('C6', 2, { notations: sweep('stop') }),
    );
    const once = annotate(encodeText(xml, 'utf-8'));
    const altered = decode(once.bytes).replaceAll(
      '<pedal-step>E</pedal-step><pedal-alter>0<',
      '<pedal-step>E</pedal-step><pedal-alter>-1<',
    );
    expect(altered).not.toBe(decode(once.bytes));
    expect(annotateText(altered)).toBe(decode(once.bytes));
  });

  it('does not let an id of the user’s own meet ours', () => {
    const xml = buildHarp(note('C4', 4, { id: 'tringle-P1-marking-1' }));
    const text = annotateText(xml);
    const ids = [...text.matchAll(/\bid="(tringle-[^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    expect(withoutInsertions(text)).toBe(xml);
  });
});

/** Two staves of random rhythms: what is written for any plan is read back as it was meant. */
const lane = (staff: number): fc.Arbitrary<string> =>
  fc
    .array(
      fc.record({
        name: fc.constantFrom('C', 'C#', 'D', 'D#', 'F', 'F#', 'Bb', 'B'),
        twelfths: fc.constantFrom(3, 4, 6, 8, 12),
        grace: fc.boolean(),
        chord: fc.boolean(),
        silent: fc.boolean(),
      }),
      { maxLength: 6 },
    )
    .map((events) => {
      const at = { staff, voice: `${staff}` };
      const octave = staff === 1 ? 5 : 3;
      const twelfths = events.reduce((sum, each) => sum + each.twelfths, 0);
      const text = events.map(({ name, twelfths, grace, chord, silent }) => {
        if (silent) return rest(twelfths / 12, at);
        const main = note(`${name}${octave}`, twelfths / 12, at);
        return [
          grace ? note(`F${octave}`, 0, { ...at, grace: 'slashed' }) : '',
          main,
          chord ? note(`E${octave}`, twelfths / 12, { ...at, chord: true }) : '',
        ].join('');
      });
      return `${text.join('')}${twelfths > 0 ? `<backup><duration>${(twelfths * DIVISIONS) / 12}</duration></backup>` : ''}`;
    });

describe('any score', () => {
  it('gives its markings back where and as they were planned, and itself when they are taken out', () => {
    const twoStaves = fc.tuple(lane(1), lane(2)).map(([upper, lower]) => upper + lower);
    fc.assert(
      fc.property(fc.array(twoStaves, { minLength: 1, maxLength: 4 }), (bars) => {
        const xml = buildHarp(note('C4', 1), ...bars);
        const done = annotate(encodeText(xml, 'utf-8'));
        const text = decode(done.bytes);
        const read = readScore(text);
        expect(markingsOf(read)).toEqual(writtenMarkings(done.markings));
        expect(withoutInsertions(text)).toBe(xml);
        expect(annotateText(text)).toBe(text);
      }),
      { numRuns: cases(60) },
    );
  });
});

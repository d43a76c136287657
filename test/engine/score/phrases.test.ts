import { describe, expect, it } from 'vitest';
import { rationalKey } from '../../../engine/music/rational.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { bar as meiBar, note as meiNote, notes as meiNotes, meiScore, read } from './mei/mei-builder.ts';
import { backup, note, readHarp } from './musicxml/musicxml-builder.ts';

/** `slur 0 2 3` for a slur from 0 to the note at 2 that ends at 3. */
const phrases = (score: Score): readonly string[] =>
  score.phrases.map(({ kind, start, last, end }) => [kind, ...[start, last, end].map(rationalKey)].join(' '));

const slur = (type: string, number = 1): string => `<slur type="${type}" number="${number}"/>`;

describe('phrases in MusicXML', () => {
  it('are slurs, over the bar line too', () => {
    const score = readHarp(
      note('C4', 4, { notations: slur('start') }),
      note('D4', 3, { notations: slur('stop') }) + note('E4', 1),
    );
    expect(phrases(score)).toEqual(['slur 0 4 7']);
  });

  it('one may end where the next begins', () => {
    const score = readHarp(
      note('C4', 1, { notations: slur('start') }) +
        note('D4', 1, { notations: slur('stop') + slur('start') }) +
        note('E4', 2, { notations: slur('stop') }),
    );
    expect(phrases(score)).toEqual(['slur 0 1 2', 'slur 1 2 4']);
  });

  it('of two voices under one number stay apart', () => {
    const voice = (names: readonly string[], voiceName: string): string =>
      names
        .map((name, i) => note(name, 2, { voice: voiceName, notations: slur(i === 0 ? 'start' : 'stop') }))
        .join('');
    expect(phrases(readHarp(voice(['G4', 'A4'], '1') + backup(4) + voice(['C4', 'D4'], '2')))).toEqual([
      'slur 0 2 4',
      'slur 0 2 4',
    ]);
  });

  it('are ended by fermatas, breath marks and caesuras', () => {
    const score = readHarp(
      note('C4', 1, { notations: '<fermata/>' }) +
        note('D4', 1, { notations: '<articulations><breath-mark/></articulations>' }) +
        note('E4', 2, { notations: '<articulations><caesura/></articulations>' }),
    );
    expect(phrases(score)).toEqual(['fermata 0 0 1', 'breath 1 1 2', 'caesura 2 2 4']);
  });

  it('have two ends: a slur without its other is passed over, without a word', () => {
    const score = readHarp(
      note('C4', 2, { notations: slur('stop') }) + note('D4', 2, { notations: slur('start', 2) }),
    );
    expect(phrases(score)).toEqual([]);
    expect(score.remarks.some(({ code }) => code === 'skipped')).toBe(false);
  });
});

describe('phrases in MEI', () => {
  const three =
    meiNote('c4', 4, 'xml:id="a"') + meiNote('d4', 4, 'xml:id="b"') + meiNote('e4', 2, 'xml:id="c"');
  const marked = (marks: string): Score => read(meiScore(meiBar({ upper: three, marks })));

  it('are slurs and phrase lines, by the ids of their notes', () => {
    expect(phrases(marked('<slur startid="#a" endid="#c"/>'))).toEqual(['slur 0 2 4']);
    expect(phrases(marked('<phrase startid="#a" endid="#b"/>'))).toEqual(['slur 0 1 2']);
  });

  it('or by their times, over the bar line too', () => {
    const flow =
      meiBar({ upper: three, marks: '<slur staff="1" tstamp="1" tstamp2="1m+1"/>' }) +
      meiBar({ upper: meiNotes('f4', 1) });
    expect(phrases(read(meiScore(flow)))).toEqual(['slur 0 4 8']);
  });

  it('or by attributes of their notes', () => {
    const flow =
      meiNote('c4', 4, 'slur="i1"') +
      meiNote('d4', 4, 'slur="t1 i2"') +
      meiNote('e4', 2, 'slur="t2" fermata="above"');
    expect(phrases(read(meiScore(meiBar({ upper: flow }))))).toEqual([
      'slur 0 1 2',
      'slur 1 2 4',
      'fermata 2 2 4',
    ]);
  });

  it('are ended before the note at whose time a breath mark or caesura stands', () => {
    expect(phrases(marked('<breath staff="1" tstamp="3"/><caesura staff="1" tstamp="2"/>'))).toEqual([
      'caesura 0 0 1',
      'breath 1 1 2',
    ]);
    expect(phrases(marked('<breath staff="1" tstamp="1"/>'))).toEqual([]);
  });

  it('are ended by fermatas, breath marks and caesuras', () => {
    const marks =
      '<fermata startid="#a"/><breath startid="#b"/><caesura startid="#c"/><breath staff="9" tstamp="1"/>';
    expect(phrases(marked(marks))).toEqual(['fermata 0 0 1', 'breath 1 1 2', 'caesura 2 2 4']);
  });

  it('of nothing on the harp are passed over', () => {
    expect(phrases(marked('<slur startid="#x" endid="#y"/><slur startid="#a"/>'))).toEqual([]);
  });
});

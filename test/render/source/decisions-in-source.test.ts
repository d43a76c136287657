import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseDecisions } from '../../../engine/decisions/choose-decisions.ts';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { nameNotes } from '../../../engine/decisions/notes-at.ts';
import { readSavedDecisions } from '../../../engine/decisions/read-saved-decisions.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { encodeText } from '../../../engine/score/file/decode.ts';
import type { TextEncoding } from '../../../engine/score/model/source.ts';
import { openScore } from '../../../engine/score/open.ts';
import { chooseMarkings } from '../../../render/markings/markings.ts';
import { type AnnotatedSource, annotateSource } from '../../../render/source/annotate-source.ts';
import { withoutOwnMarkings } from '../../../render/source/our-markings.ts';
import { anyDecisions } from '../../engine/decisions/any-decisions.ts';
import * as mei from '../../engine/score/mei/mei-builder.ts';
import * as xml from '../../engine/score/musicxml/musicxml-builder.ts';
import { cases } from '../../thorough.ts';

const open = (bytes: Uint8Array) => {
  const opened = openScore(bytes);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return withoutOwnMarkings(opened.value);
};

/** Annotates by decisions as the service does; by the one that is saved where none is given. */
const annotate = (bytes: Uint8Array, own: Decisions | null): AnnotatedSource => {
  const score = open(bytes);
  const { decisions, placed } = chooseDecisions(score, own, true);
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...placed });
  const done = annotateSource(score, chooseMarkings(score, plan), {
    others: 'keep',
    respellings: plan.respellings.filter(({ note }) => placed.respelled.has(note)),
    omitted: plan.omitted,
    decisions,
  });
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

const MUSICXML = xml.buildHarp(
  xml.note('C#4', 2, { accidental: 'sharp' }) + xml.note('E4', 2, { chord: true }) + xml.note('C4', 2),
  xml.note('C4', 2, { ties: ['start'] }) + xml.note('C4', 2, { ties: ['stop'] }),
);

const MEI = mei.meiScore(
  mei.bar({
    upper: mei.note('c4', 2, 'accid="s"') + mei.note('c4', 2, 'accid="n"'),
    lower: mei.chord('c3 g3', 1),
  }) + mei.bar({ upper: mei.notes('c4 d4', 2), lower: mei.note('c3', 1) }),
);

const FILES: readonly [string, string, Decisions][] = [
  ['MusicXML', MUSICXML, { ...NO_DECISIONS, omit: [{ barIndex: 1, beat: '1', pitch: 'C4' }] }],
  ['MEI', MEI, { ...NO_DECISIONS, omit: [{ barIndex: 0, beat: '1', pitch: 'G3' }] }],
];

const ENCODINGS: readonly TextEncoding[] = ['utf-8', 'utf-16le', 'utf-16be', 'iso-8859-1'];

const declare = (text: string, encoding: TextEncoding): Uint8Array => {
  const name = { 'utf-8': 'UTF-8', 'utf-16le': 'UTF-16', 'utf-16be': 'UTF-16', 'iso-8859-1': 'ISO-8859-1' };
  const body = text.replace(/^\uFEFF?(<\?xml[^>]*\?>\s*)?/u, '');
  const mark = encoding.startsWith('utf-16') ? '\uFEFF' : '';
  return encodeText(`${mark}<?xml version="1.0" encoding="${name[encoding]}"?>\n${body}`, encoding);
};

describe.each(FILES)('a note left out in %s', (_, text, decisions) => {
  it('stands in brackets, by insertion alone', () => {
    const { text: out, edits } = annotate(encodeText(text, 'utf-8'), decisions);
    expect(edits.every(({ start, end }) => start === end)).toBe(true);
    expect(out).toMatch(/<notehead parentheses="yes">normal<\/notehead>|<note head\.mod="paren"/);
  });

  it('has no brackets any more once it is played again', () => {
    const once = annotate(encodeText(text, 'utf-8'), decisions);
    const again = annotate(once.bytes, NO_DECISIONS);
    const plain = annotate(encodeText(text, 'utf-8'), NO_DECISIONS);
    expect(again.text).toBe(plain.text);
    expect(again.text).not.toContain('paren');
  });
});

describe('brackets in the file', () => {
  it('are put around every note of a tie', () => {
    const [, , decisions] = FILES[0]!;
    expect(annotate(encodeText(MUSICXML, 'utf-8'), decisions).text.match(/<notehead/g)).toHaveLength(2);
  });

  it('leave a notehead alone that has a form of its own, and say so', () => {
    const diamond = MUSICXML.replace(
      /(<type>[^<]*<\/type>)?<staff>/u,
      '$1<notehead>diamond</notehead><staff>',
    );
    expect(diamond).not.toBe(MUSICXML);
    const decisions: Decisions = { ...NO_DECISIONS, omit: [{ barIndex: 0, beat: '1', pitch: 'C♯4' }] };
    const { text, remarks } = annotate(encodeText(diamond, 'utf-8'), decisions);
    expect(text.match(/<notehead/g)).toHaveLength(1);
    expect(remarks.map(({ code, barNumber }) => `${code} ${barNumber}`)).toEqual([
      'omitted-note-not-marked 1',
    ]);
  });

  it('of others stay when a note of theirs is played', () => {
    const bracketed = MEI.replace('<note pname="g"', '<note head.mod="paren" pname="g"');
    const { text } = annotate(encodeText(bracketed, 'utf-8'), NO_DECISIONS);
    expect(text).toContain('<note head.mod="paren" pname="g"');
  });
});

describe.each(FILES)('decisions saved into %s', (_, text) => {
  it.each(ENCODINGS)('is found again in %s, and gone without a trace once there is none', (encoding) => {
    const bytes = declare(text, encoding);
    const decisions: Decisions = { ...NO_DECISIONS, fullSettings: [{ barIndex: 1, beat: '1', print: true }] };
    const once = annotate(bytes, decisions);
    expect(
      readSavedDecisions(open(once.bytes)).map((saved) => saved.kind === 'decisions' && saved.decisions),
    ).toEqual([decisions]);
    expect(annotate(once.bytes, NO_DECISIONS).bytes).toEqual(annotate(bytes, NO_DECISIONS).bytes);
  });

  it('whatever it is, annotating again with it changes nothing, and only insertions were made', () => {
    const bytes = encodeText(text, 'utf-8');
    const { notes } = open(bytes);
    const own = fc.tuple(anyDecisions, fc.subarray(notes.map(({ id }) => id))).map(
      ([any, left]): Decisions => ({
        ...any,
        omit: [...any.omit, ...left.map((id) => nameNotes(open(bytes))(id)!)],
      }),
    );
    fc.assert(
      fc.property(own, (decisions) => {
        const once = annotate(bytes, decisions);
        expect(once.edits.every(({ start, end }) => start === end)).toBe(true);
        expect(annotate(once.bytes, null).text).toBe(once.text);
        expect(annotate(once.bytes, decisions).text).toBe(once.text);
        expect(once.text.match(/<\?tringle-decisions/g) ?? []).toHaveLength(
          Object.values(decisions).some((list) => list.length > 0) ? 1 : 0,
        );
      }),
      { numRuns: cases(40) },
    );
  });

  it('with a string chosen writes the note so, and knows it again', () => {
    const decisions: Decisions = {
      ...NO_DECISIONS,
      respell: [{ barIndex: 0, beat: '1', pitch: 'C♯4', to: 'D♭4' }],
    };
    const once = annotate(encodeText(text, 'utf-8'), decisions);
    const written = open(once.bytes).notes.find(({ bar, onset }) => bar === 0 && onset.num === 0);
    expect(written?.pitch).toEqual({ letter: 'D', alter: -1, octave: 4 });
    expect(chooseDecisions(open(once.bytes), null, true).placed.unplaced).toEqual([]);
    expect(annotate(once.bytes, null).text).toBe(once.text);
  });
});

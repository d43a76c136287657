import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../engine/music/pitch.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { otherStrings } from '../../../engine/sounding/needs.ts';
import { applyEdits } from '../../../render/edit.ts';
import { respellingEdits } from '../../../render/source/respelling/respell.ts';
import * as mei from '../../engine/score/mei/mei-builder.ts';
import * as xml from '../../engine/score/musicxml/musicxml-builder.ts';

/** Respells the named note (`C♯4`) on the next string that gives its pitch. */
const respell = (score: Score, name: string): string => {
  const found = score.notes.find((each) => pitchName(each.pitch) === name && each.tiedFrom === null)!;
  const string = found.harmonic?.string ?? found.pitch;
  const edits = respellingEdits(score, [{ note: found.id, from: string, to: otherStrings(string)[0]! }]);
  if (!edits.ok) throw new Error(JSON.stringify(edits.problem));
  return applyEdits(score.source.text, edits.value);
};

const names = (score: Score): string => score.notes.map((each) => pitchName(each.pitch)).join(' ');

describe('a respelled note in MusicXML', () => {
  it('has a new step, alteration, octave and accidental, and all else is as it was', () => {
    const before = xml.buildHarp(
      xml.note('B#3', 4, { accidental: 'sharp', notations: '<articulations><accent/></articulations>' }),
    );
    expect(respell(xml.readScore(before), 'B♯3')).toBe(
      before
        .replace('<step>B</step><alter>1</alter><octave>3</octave>', '<step>C</step><octave>4</octave>')
        .replace('<accidental>sharp</accidental>', '<accidental>natural</accidental>'),
    );
  });

  it('gains an alteration and an accidental in their places where it had none', () => {
    const before = xml.buildHarp(xml.note('C4', 4));
    expect(respell(xml.readScore(before), 'C4')).toBe(
      before
        .replace('<step>C</step><octave>4</octave>', '<step>B</step><alter>1</alter><octave>3</octave>')
        .replace('<voice>1</voice><staff>', '<voice>1</voice><accidental>sharp</accidental><staff>'),
    );
  });

  it('takes the notes tied to it along, so that the tie still joins one string', () => {
    const score = xml.readHarp(
      xml.note('C#4', 4, { ties: ['start'], accidental: 'sharp' }),
      xml.note('C#4', 4, { ties: ['stop'] }),
      xml.note('C#4', 4),
    );
    const after = xml.readScore(respell(score, 'C♯4'));
    expect(names(after)).toBe('D♭4 D♭4 C♯4');
    expect(after.notes[1]!.tiedFrom).toBe(after.notes[0]!.id);
    expect(respell(score, 'C♯4').match(/<accidental>/g)).toHaveLength(1);
  });

  it('moves by as much as it sounds where the part is transposed', () => {
    const score = xml.readHarp(
      xml.bar(xml.note('D#4', 4), {
        attributes: '<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>',
      }),
    );
    const after = respell(score, 'C♯4');
    expect(after).toContain('<step>E</step><alter>-1</alter><octave>4</octave>');
    expect(names(xml.readScore(after))).toBe('D♭4');
  });
});

describe('a respelled note in MEI', () => {
  it('has a new name, octave and accidental, and all else is as it was', () => {
    const before = mei.meiScore(mei.bar({ upper: mei.note('b3', 1, 'accid="s" artic="acc"') }));
    expect(respell(mei.read(before), 'B♯3')).toBe(
      before.replace('pname="b" oct="3" dur="1" accid="s"', 'pname="c" oct="4" dur="1" accid="n"'),
    );
  });

  it.each([
    ['an accid element', mei.note('c4', 1, '', '<accid accid="s"/>'), '<accid accid="f"/>'],
    ['a performed accidental only', mei.note('c4', 1, 'accid.ges="s"'), 'accid="f"'],
    ['the key signature’s', mei.note('c4', 1), 'accid="f"'],
  ])('has its sign where %s told it', (_, note, sign) => {
    const definition = 'meter.count="4" meter.unit="4" keysig="2s"';
    const after = respell(mei.read(mei.meiScore(mei.bar({ upper: note }), { definition })), 'C♯4');
    expect(after).toContain(sign);
    expect(after).not.toContain('accid.ges');
    expect(names(mei.read(after))).toBe('D♭4');
  });

  it('takes the notes tied to it along', () => {
    const tied =
      mei.bar({ upper: mei.note('c4', 1, 'accid="s" tie="i"') }) +
      mei.bar({ upper: mei.note('c4', 1, 'tie="t"') });
    const after = mei.read(respell(mei.read(mei.meiScore(tied)), 'C♯4'));
    expect(names(after)).toBe('D♭4 D♭4');
    expect(after.notes[1]!.tiedFrom).toBe(after.notes[0]!.id);
  });

  it('is refused where it is transposed and only the key tells its accidental', () => {
    const score = mei.read(
      mei.meiScore(mei.bar({ upper: mei.note('d4', 1) }), {
        definition: 'meter.count="4" meter.unit="4" keysig="3s" trans.diat="-1" trans.semi="-2"',
      }),
    );
    const found = score.notes[0]!;
    const result = respellingEdits(score, [{ note: found.id, from: found.pitch, to: found.pitch }]);
    expect(found.pitch.letter).toBe('C');
    expect(result).toMatchObject({ ok: false, problem: { code: 'unsupported' } });
  });
});

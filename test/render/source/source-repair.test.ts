import { describe, expect, it } from 'vitest';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { repairSource } from '../../../render/source/repair-source.ts';
import { bar, meiScore, notes } from '../../engine/score/mei/mei-builder.ts';
import { buildHarp, direction, note, words } from '../../engine/score/musicxml/musicxml-builder.ts';

const open = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
};

/** The file with its markings corrected, and what is still wrong with it. */
const repair = (text: string) => {
  const score = open(text);
  const proof = proofreadScore(score);
  const fixes = proof.repair.edits.flatMap((edit) => edit.fixes);
  const repaired = repairSource(score, fixes);
  if (!repaired.ok) throw new Error(JSON.stringify(repaired.problem));
  const { findings } = proofreadScore(open(repaired.value.text));
  return {
    text: repaired.value.text,
    edits: proof.repair.edits.length,
    left: findings.filter(({ severity }) => severity !== 'note').map(({ code }) => code),
  };
};

const pedals = (alters: string): string =>
  direction(
    `<harp-pedals>${alters
      .split(' ')
      .map((each) => each.split('='))
      .map(
        ([step, alter]) =>
          `<pedal-tuning><pedal-step>${step}</pedal-step><pedal-alter>${alter}</pedal-alter></pedal-tuning>`,
      )
      .join('')}</harp-pedals>`,
  );

const NATURALS = pedals('D=0 C=0 B=0 E=0 F=0 G=0 A=0');

describe('a repaired MusicXML file', () => {
  it.each([
    ['a wrong sign', 'C♭', 'C#4', 'C♯'],
    ['a wrong sign, as it is written', 'to Cb!', 'C#4', 'to C♯!'],
    ['a wrong sign among others', 'Db, C♭ (G#)', 'C#4', 'Db, C♯ (G#)'],
    ['a German name', 'Fis Ces', 'C#4', 'Fis Cis'],
    ['a French name', 'do♭', 'C#4', 'do♯'],
    ['another pedal', 'B♯', 'C#4', 'C♯'],
  ])('has %s corrected in its words, and no other byte changed', (_, wrong, pitch, right) => {
    const text = (said: string): string =>
      buildHarp(NATURALS + note('C4', 4), words(said) + note(pitch, 4) + note('B3', 4));
    const { text: repaired, left } = repair(text(wrong));
    expect(repaired).toBe(text(right));
    expect(left).toEqual([]);
  });

  it('has a wrong entry of a diagram corrected where it stands', () => {
    const text = (setting: string): string => buildHarp(setting + note('C#4', 4), note('C#4', 4));
    const wrong = pedals('D=0 C=-1 B=0 E=0 F=0 G=0 A=0');
    expect(repair(text(wrong))).toEqual({
      text: text(pedals('D=0 C=1 B=0 E=0 F=0 G=0 A=0')),
      edits: 1,
      left: [],
    });
  });

  it('loses a name that is in the way, with what parts it from the others', () => {
    const text = (said: string): string =>
      buildHarp(NATURALS + note('C4', 4), words(said) + note('C4', 2) + note('D#4', 2), note('C4', 4));
    expect(repair(text('C♯, D♯')).text).toBe(text('D♯'));
    expect(repair(text('D♯ C♯')).text).toBe(text('D♯'));
  });

  it('gains the markings that it lacks, and is otherwise the file as it was', () => {
    const text = buildHarp(NATURALS + note('C4', 4), note('C#4', 2) + note('F#4', 2));
    const { text: repaired, edits, left } = repair(text);
    expect(edits).toBe(1);
    expect(left).toEqual([]);
    expect(repaired.replace(/\s*<direction [^>]*id="pedals-[\s\S]*?<\/direction>/gu, '')).toBe(text);
  });

  it('writes words anew that are spread over several elements', () => {
    const split = direction('<words>C</words><symbol>accidentalFlat</symbol>');
    const text = buildHarp(NATURALS + note('C4', 4), split + note('C#4', 4));
    const { text: repaired, left } = repair(text);
    expect(left).toEqual([]);
    expect(repaired).toContain('<words>C♯</words>');
  });

  it('is the same file where nothing is wrong', () => {
    const text = buildHarp(NATURALS + note('C4', 4), words('C♯') + note('C#4', 4));
    expect(repair(text)).toEqual({ text, edits: 0, left: [] });
  });
});

describe('a repaired MEI file', () => {
  const score = (marks: string, second: string): string =>
    meiScore(
      bar({
        upper: notes('c4', 1),
        marks: '<harpPedal tstamp="1" a="n" b="n" c="n" d="n" e="n" f="n" g="n"/>',
      }) + bar({ upper: second, marks }),
    );
  const cSharp = '<note oct="4" pname="c" dur="1" accid="s"/>';

  it('has words corrected where they stand', () => {
    const text = (said: string): string => score(`<dir staff="1" tstamp="1">${said}</dir>`, cSharp);
    expect(repair(text('C♭')).text).toBe(text('C♯'));
  });

  it('has an entry of a diagram corrected as its attribute', () => {
    const text = (c: string): string =>
      score(`<harpPedal tstamp="1" a="n" b="n" c="${c}" d="n" e="n" f="n" g="n"/>`, cSharp);
    expect(repair(text('f')).text).toBe(text('s'));
  });

  it('gains what it lacks', () => {
    expect(repair(score('', cSharp))).toMatchObject({ edits: 1, left: [] });
  });
});

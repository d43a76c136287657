import { describe, expect, it } from 'vitest';
import {
  type BuiltBar,
  bar,
  buildHarp,
  type NoteOptions,
  note,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';

/** SMuFL 1.4, range Standard accidentals, as the layout names its glyphs. */
const SIGNS: Readonly<Record<string, string>> = { E260: 'flat', E261: 'natural', E262: 'sharp', E263: '##' };

/** The accidentals printed beside notes in the order of the page, and what the user is told. */
const printed = async (bytes: Uint8Array) => {
  const annotated = await annotateBytes(annotator, bytes, {}, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  const { pages, remarks } = annotated.value;
  const signs = [...pages.join('').matchAll(/class="accid"[^>]*>\s*<use [^>]*href="#(E26[0-3])/g)];
  return {
    signs: signs.map(([, glyph]) => SIGNS[glyph!]),
    remarks: remarks.filter(({ code }) => code === 'accidentals-added').map(({ message }) => message),
  };
};

const inMusicXml = (...bars: readonly (BuiltBar | string)[]) =>
  printed(new TextEncoder().encode(buildHarp(...bars)));

const row = (names: string, options: NoteOptions = {}): string =>
  names
    .split(' ')
    .map((name) => note(name, 1, options))
    .join('');

const inKey = (fifths: number, names: string) =>
  bar(row(names), { attributes: `<key><fifths>${fifths}</fifths></key>` });

describe('a note that sounds altered without a printed accidental', () => {
  it('gets one where it first stands in a bar, once, and the user is told in which bars', async () => {
    const { signs, remarks } = await inMusicXml(row('F#4 F#4 G4 F#4'), row('A4 A4 A4 F#4'));
    expect(signs).toEqual(['sharp', 'sharp']);
    expect(remarks).toEqual([
      '2 accidentals missing from the file are printed on the pages, to match how its notes sound (bars 1 and 2).',
    ]);
  });

  it('gets a natural against a sharp earlier in the bar, and against the key', async () => {
    expect((await inMusicXml(row('F#4 F4 F4 F4'))).signs).toEqual(['sharp', 'natural']);
    expect((await inMusicXml(inKey(1, 'F#4 F4 F#4 F#4'))).signs).toEqual(['natural', 'sharp']);
  });

  it('gets its own in another octave', async () => {
    expect((await inMusicXml(row('Bb4 Bb5 Bb4 Bb5'))).signs).toEqual(['flat', 'flat']);
  });

  it('gets none when tied from the bar before, but the next of its line does', async () => {
    const tied = await inMusicXml(
      row('C4 C4 C4') + note('C#4', 1, { accidental: 'sharp', ties: ['start'] }),
      note('C#4', 1, { ties: ['stop'] }) + row('C#4 C4 C4'),
    );
    expect(tied.signs).toEqual(['sharp', 'sharp', 'natural']);
    expect(tied.remarks[0]).toContain('(bar 2)');
  });

  it('gets the sign by what is written, not by what sounds: in a transposed part', async () => {
    const notes = row('F#4 F4 C4 C#4');
    const written = bar(notes, {
      attributes:
        '<key><fifths>2</fifths></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>',
    });
    expect((await inMusicXml(written)).signs).toEqual(['natural', 'natural', 'sharp']);
  });

  it('gets the sign in MEI that states only what is performed', async () => {
    const bytes = meiScore({ bars: ['f4.4 f#4.4 f4.4 f4.4'] });
    expect((await printed(bytes)).signs).toEqual(['sharp', 'natural']);
  });
});

describe('a part that prints its accidentals', () => {
  it('is left as it is', async () => {
    const sharp = note('F#4', 1, { accidental: 'sharp' });
    const natural = note('F4', 1, { accidental: 'natural' });
    expect(await inMusicXml(`${sharp}${note('F#4')}${natural}${note('F4')}`)).toEqual({
      signs: ['sharp', 'natural'],
      remarks: [],
    });
    expect(await inMusicXml(inKey(-3, 'E4 Eb4 Ab4 B4'))).toMatchObject({
      signs: ['natural', 'flat', 'natural'],
    });
    expect(await inMusicXml(inKey(-3, 'C4 Eb4 Ab4 Bb4'))).toEqual({ signs: [], remarks: [] });
  });
});

import { describe, expect, it } from 'vitest';
import type { OpenFileOptions } from '../../../../engine/score/open-file.ts';
import { readAbc, say, tune } from './abc-builder.ts';
import { FEATURES } from './features.ts';

const AS_MUSICXML: OpenFileOptions = { tuneFormat: 'musicxml' };

const writeMusic = async (music: string, head?: string): Promise<string> =>
  (await readAbc(tune(music, head), AS_MUSICXML)).source.text;

describe('a tune that is written as MusicXML', () => {
  it.each(FEATURES)('keeps %s', async (_, music, elements) => {
    const text = await writeMusic(music);
    for (const each of elements) expect(text).toContain(each);
  });

  it.each(FEATURES)('is read back as from MEI: %s', async (_, music) => {
    const [mei, musicXml] = [await readAbc(tune(music)), await readAbc(tune(music), AS_MUSICXML)];
    expect(musicXml.notes.map(say)).toEqual(mei.notes.map(say));
    expect(musicXml.notes.map(({ ornament }) => ornament?.kind)).toEqual(
      mei.notes.map(({ ornament }) => ornament?.kind),
    );
    expect(musicXml.playOrder).toEqual(mei.playOrder);
    expect(musicXml.bars.map(({ number, duration }) => ({ number, duration }))).toEqual(
      mei.bars.map(({ number, duration }) => ({ number, duration })),
    );
    expect(musicXml.tempo.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual(
      mei.tempo.map(({ quartersPerMinute }) => quartersPerMinute),
    );
  });

  it('has both hands in one part, and more voices in parts of their own', async () => {
    const two = await writeMusic('[V:1]C4|\n[V:2]C,4|', 'M:2/4\nL:1/8\nV:1\nV:2 clef=bass\nK:C');
    expect(two).toContain('<staves>2</staves>');
    expect(two).toContain('<backup><duration>2</duration></backup>');
    const head = 'M:2/4\nL:1/8\nV:1 name="Flute"\nV:2 name="Harp"\nV:3 name="Bass"\nK:C';
    const three = await writeMusic('[V:1]c4|\n[V:2]C4|\n[V:3]C,4|', head);
    expect(three.match(/<part-name>[^<]*/gu)).toEqual([
      '<part-name>Flute',
      '<part-name>Harp',
      '<part-name>Bass',
    ]);
  });
});

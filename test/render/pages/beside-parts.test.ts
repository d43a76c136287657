import { describe, expect, it } from 'vitest';
import { openScore } from '../../../engine/score/open.ts';
import type { Annotation } from '../../../render/annotation.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { joinBeside, readBeside } from '../../../render/pages/beside-parts.ts';
import { bar, buildScore, note, rest } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiFluteAndHarp } from '../small-score.ts';

const sung = (pitch: string, syllable: string): string =>
  note(pitch, 4).replace(
    '</note>',
    `<lyric><syllabic>single</syllabic><text>${syllable}</text></lyric></note>`,
  );

/** The voice sings F♯ and then C♯ while the harp has C, rests for two bars, and has C♯. */
const SONG = new TextEncoder().encode(
  buildScore([
    { id: 'H', name: 'Harp', bars: [bar(note('C4', 4)), rest(4), rest(4), note('C#4', 4)] },
    { id: 'V', name: 'Voice', bars: [rest(4), sung('F#4', 'Cold'), sung('C#5', 'dew'), rest(4)] },
  ]),
);

const annotated = async (bytes: Uint8Array, engraving: EngravingChoice): Promise<Annotation> => {
  const result = await annotateBytes(annotator, bytes, { engraving }, 'svg');
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
};

/** How high each staff of the first bar is, from the top. */
const staffHeights = (page: string): number[] => {
  const [measure] = groupsOf(page, 'measure');
  return measure!.children
    .filter(({ attributes }) => attributes.class === 'staff')
    .map(({ children }) => {
      const lines = children
        .filter(({ name }) => name === 'path')
        .map(({ attributes }) => Number(/^M\S+ (\S+)/.exec(attributes.d!)![1]));
      return lines.at(-1)! - lines[0]!;
    });
};

describe('a part beside the harp', () => {
  it('stands small over it with its words, wherever it stands in the score', async () => {
    const { pages } = await annotated(SONG, { withPart: 'voice' });
    const [voice, harp] = staffHeights(pages[0]!);
    expect(voice! / harp!).toBeCloseTo(0.75, 1);
    expect(groupsOf(pages[0]!, 'verse')).toHaveLength(2);
    expect(pages[0]!.replace(/<[^>]*>/g, ' ')).toMatch(/Voice.*Cold.*dew/s);
  });

  it('keeps the heading of the harp, whatever it was found in', () => {
    const opened = openScore(SONG);
    if (!opened.ok) throw new Error(opened.problem.code);
    const score = { ...opened.value, titles: { ...opened.value.titles, title: 'Dew' } };
    const beside = readBeside(score, 'Voice');
    if (!beside.ok) throw new Error(beside.problem.code);
    expect(joinBeside(score, beside.value).score.titles.title).toBe('Dew');
  });

  it('takes no part in the plan, and the markings stay with the harp', async () => {
    const [alone, beside] = [await annotated(SONG, {}), await annotated(SONG, { withPart: 'V' })];
    expect(beside.plan).toEqual(alone.plan);
    const markings = (page: string): number => groupsOf(page, 'pedal-marking').length;
    expect(markings(beside.pages[0]!)).toBe(markings(alone.pages[0]!));
    const above = (await annotated(SONG, { withPart: 'V', placement: 'above' })).pages[0]!;
    const start = groupsOf(above, 'pedal-marking')[0]!;
    const lowest = (k: number): number =>
      Number(
        /M\S+ (\S+)/.exec(
          groupsOf(above, 'staff')
            [k]!.children.filter(({ name }) => name === 'path')
            .at(-1)!.attributes.d!,
        )![1],
      );
    const y = Number(/translate\(\S+ (\S+?)\)/.exec(start.attributes.transform!)![1]);
    expect(y).toBeGreaterThan(lowest(0));
    expect(y).toBeLessThan(lowest(1));
  });

  it('keeps the bars in which it sings while the harp rests', async () => {
    const alone = (await annotated(SONG, {})).pages[0]!;
    const beside = (await annotated(SONG, { withPart: 'V' })).pages[0]!;
    expect([groupsOf(alone, 'measure').length, groupsOf(beside, 'measure').length]).toEqual([3, 4]);
  });

  it('is asked for by a name or id of the score', async () => {
    const wrong = await annotateBytes(annotator, SONG, { engraving: { withPart: 'Voice; Tuba' } }, 'svg');
    expect(wrong).toMatchObject({
      ok: false,
      problem: { code: 'unknown-part', option: 'withPart', wanted: 'Tuba' },
    });
    expect((await annotated(SONG, { withPart: 'oice' })).pages).toEqual(
      (await annotated(SONG, { withPart: 'Voice' })).pages,
    );
  });

  it('is found in MEI as well', async () => {
    const { pages } = await annotated(meiFluteAndHarp(['', '']), { withPart: 'Flute' });
    const heights = staffHeights(pages[0]!);
    expect(heights).toHaveLength(3);
    expect(heights[0]! / heights[1]!).toBeCloseTo(0.75, 1);
  });
});

describe('coloured letters where words would be sung', () => {
  const song = (syllables: readonly [string, string]): Uint8Array =>
    new TextEncoder().encode(
      buildScore([
        { id: 'H', name: 'Harp', bars: [note('C4', 4), note('D4', 4)] },
        {
          id: 'V',
          name: 'Flute',
          bars: [sung('F4', syllables[0]), sung('C5', syllables[1])],
        },
      ]).replaceAll('<lyric>', '<lyric color="#FF0000">'),
    );

  it.each([
    ['letters alone', 'c'],
    ['a remark in brackets', '(cont.)'],
  ])('are those of an analysis, with %s: left out, and told', async (_, second) => {
    const { pages, remarks } = await annotated(song(['a', second]), { withPart: 'Flute' });
    expect(groupsOf(pages[0]!, 'verse')).toHaveLength(0);
    expect(remarks.filter(({ code }) => code === 'letters-left-out').map(({ message }) => message)).toEqual([
      expect.stringMatching(/^2 coloured letters .*\(bars 1 and 2\)/),
    ]);
  });

  it('are sung where whole words have the same colour', async () => {
    const { pages, remarks } = await annotated(song(['a', 'rose']), { withPart: 'Flute' });
    expect(groupsOf(pages[0]!, 'verse')).toHaveLength(2);
    expect(remarks.map(({ code }) => code)).not.toContain('letters-left-out');
  });
});

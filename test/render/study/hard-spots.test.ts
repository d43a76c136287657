import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import { climb, slowTempo } from '../../../render/study/spots/hard-spots.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';

describe('the tempo to practise at', () => {
  it('gives each foot a second between its moves', () => {
    // Half a second at 96 is a whole one at 48.
    expect(slowTempo(96, [0.5, 0.8])).toBe(48);
    expect(slowTempo(96, [1.5])).toBe(96);
  });

  it('is never so slow that no one would count, nor faster than written', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 300, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { maxLength: 2 }),
        (tempo, spacings) => {
          const slow = slowTempo(tempo, spacings);
          expect(slow).toBeLessThanOrEqual(Math.round(tempo));
          expect(slow).toBeGreaterThanOrEqual(Math.min(20, Math.round(tempo)));
        },
      ),
    );
  });

  it('climbs from the slow tempo to the written one, each step higher', () => {
    expect(climb(48, 96)).toEqual([48, 55, 63, 73, 84, 96]);
    expect(climb(90, 96)).toEqual([90, 96]);
    expect(climb(96, 96)).toEqual([96]);
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 300 }), fc.integer({ min: 20, max: 300 }), (slow, tempo) => {
        const steps = climb(slow, tempo);
        expect(steps.at(-1)).toBe(tempo);
        expect(steps.every((each, i) => i === 0 || each > steps[i - 1]!)).toBe(true);
      }),
    );
  });
});

/** The heights of all staff lines, moves of the groups round them included. */
const staffLines = (element: XmlElement, y: number): number[] => {
  const moved =
    y + Number(/^translate\([^,]*, ?(-?[\d.]+)/.exec(element.attributes.transform ?? '')?.[1] ?? 0);
  const own =
    element.attributes.class === 'staff'
      ? element.children
          .filter(({ name }) => name === 'path')
          .map(({ attributes }) => moved + Number(/^M[\d.-]+ (-?[\d.]+)/.exec(attributes.d!)![1]))
      : [];
  return [...own, ...element.children.flatMap((each) => staffLines(each, moved))];
};

describe('the hard spots of the demo', () => {
  let pages: readonly string[] = [];

  beforeAll(async () => {
    const url = new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url);
    const engraving = { edition: 'study' } as const;
    const made = await annotateBytes(annotator, new Uint8Array(readFileSync(url)), { engraving }, 'svg');
    if (!made.ok) throw new Error(made.problem.code);
    pages = made.value.pages;
  });

  const barsIn = (drawn: string): string[] =>
    [...drawn.matchAll(/id="(b\d+)[^"]*" class="measure"/g)].map(([, id]) => id!);

  it('show their lines of music, whole, and no others', () => {
    const cuts = pages.filter((page) => page.includes('class="excerpt"'));
    // One spot may end on the sheet on which the next begins.
    const spots = cuts
      .join('\n')
      .split(/(?=\d\. Bars \d+–\d+)/)
      .slice(1);
    expect(spots).toHaveLength(4);
    const lines = pages
      .filter((page) => !page.includes('class="excerpt"'))
      .flatMap((page) =>
        groupsOf(page, 'system').map((system) => page.slice(system.span.start, system.span.end)),
      )
      .map((line) => [...line.matchAll(/id="(b\d+)" class="measure"/g)].map(([, id]) => id!));
    for (const spot of spots) {
      const [, from, until] = /\d\. Bars (\d+)–(\d+)/.exec(spot)!;
      const wanted = Array.from(
        { length: Number(until) - Number(from) + 1 },
        (_, i) => `b${Number(from) + i}`,
      );
      const whole = lines.filter((line) => line.some((bar) => wanted.includes(bar))).flat();
      expect(barsIn(spot)).toEqual(whole);
      expect(whole).toEqual(expect.arrayContaining(wanted));
    }
  });

  it('show bars pale that are not of the passage, and no others', () => {
    const spots = pages
      .filter((page) => page.includes('class="excerpt"'))
      .join('\n')
      .split(/(?=\d\. Bars \d+–\d+)/)
      .slice(1);
    const outside = spots.map((spot) => {
      const [, from, until] = /\d\. Bars (\d+)–(\d+)/.exec(spot)!;
      const bars = [...spot.matchAll(/<g ([^>]*class="measure"[^>]*)>/g)].map(([, tag]) => ({
        number: Number(/id="b(\d+)/.exec(tag!)![1]),
        pale: tag!.includes('opacity='),
      }));
      for (const { number, pale } of bars) {
        expect(pale, `bar ${number}`).toBe(number < Number(from) || number > Number(until));
      }
      return bars.filter(({ pale }) => pale).length;
    });
    expect(Math.max(...outside)).toBeGreaterThan(0);
  });

  it('stand each on one sheet', () => {
    const sheets = pages.filter((page) => page.includes('class="excerpt"'));
    for (const sheet of sheets) {
      expect(sheet).toMatch(/\d\. Bars \d+–\d+/);
      expect(sheet).toContain('>Exercises<');
    }
  });

  it('show every staff of these lines within the cut', () => {
    for (const page of pages.filter((each) => each.includes('class="excerpt"'))) {
      const cutOut = descendantsNamed(treeOf(page), 'svg').find(
        ({ attributes }) => attributes.class === 'excerpt',
      )!;
      const [, top, , height] = cutOut.attributes.viewBox!.split(' ').map(Number);
      const heights = staffLines(cutOut, 0);
      expect(heights.length).toBeGreaterThan(9);
      expect(Math.min(...heights)).toBeGreaterThan(top!);
      expect(Math.max(...heights)).toBeLessThan(top! + height!);
    }
  });

  it('leave out what is explained after the last line of the part', async () => {
    const clash = note('C4', 4) + note('C#4', 4, { chord: true });
    const xml = new TextEncoder().encode(buildHarp(clash, note('D4', 4)));
    const made = await annotateBytes(annotator, xml, { engraving: { edition: 'study' } }, 'svg');
    if (!made.ok) throw new Error(made.problem.code);
    const isExplained = (page: string): boolean => page.includes('class="closing-notes"');
    expect(made.value.pages.some(isExplained)).toBe(true);
    const spots = made.value.pages.filter((page) => page.includes('class="excerpt"'));
    expect(spots).not.toEqual([]);
    expect(spots.filter(isExplained)).toEqual([]);
  });

  it('share no ids with other pages', () => {
    const ids = pages.flatMap((page) => [...page.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id));
    expect(new Set(ids).size).toBe(ids.length);
  });
});

import { describe, expect, it } from 'vitest';
import { stringsWithLevers } from '../../engine/harp/levered-strings.ts';
import { planPart } from '../../engine/plan-part.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import type { EngravingChoice } from '../../render/engraving-options.ts';
import { pageLayoutOf, SVG_UNITS_PER_MM } from '../../render/layout/breaks/page-layout.ts';
import { LANGUAGES, type Language } from '../../render/words/language.ts';
import { wordsOf } from '../../render/words/words.ts';
import { demoScore } from '../demo-score.ts';
import { bar, buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from './annotate-bytes.ts';
import { groupsOf, treeOf } from './page-tree.ts';
import { annotator } from './shared-annotator.ts';
import { findTouchingWords } from './touching-words.ts';

const LEVERS = demoScore('the-ribbon-stall', 'beginning');
const PEDALS = demoScore('lanterns-at-the-lock', 'beginning');

const draw = async (harp: 'pedal' | 'lever', choice: EngravingChoice): Promise<readonly string[]> => {
  const [score, plan] =
    harp === 'pedal' ? [PEDALS, planPart(PEDALS, {})] : [LEVERS, planPart(LEVERS, { levers: {} })];
  const made = await annotator.engrave(score, plan, { edition: 'exercise', ...choice }, 'svg');
  if (!made.ok) throw new Error(JSON.stringify(made.problem));
  return made.value.pages;
};

const MARKINGS = ['pedal-marking', 'lever-marking'];

/** Where each thing of ours stands, from the left and from above. */
const placesOf = (pages: readonly string[], ...names: readonly string[]): string[] =>
  pages.flatMap((page) =>
    names.flatMap((name) =>
      groupsOf(page, name).map(({ attributes }) => /translate\([^)]*\)/.exec(attributes.transform!)![0]),
    ),
  );

/** What stands over the music of a first page, on paper that ends at the margins of its sides. */
const headOf = (page: string, staffMm: number): string => {
  const { widthMm, heightMm, marginMm } = pageLayoutOf({ paper: 'a4', staffMm });
  const [side, top, height] = [widthMm - 2 * marginMm, marginMm, heightMm].map((mm) => mm * SVG_UNITS_PER_MM);
  const [head] = groupsOf(page, 'pgHead');
  const words = page.slice(head!.span.start, head!.span.end);
  const lowered = words.replace(/ y="(\d+)"/g, (_, y: string) => ` y="${Number(y) + top!}"`);
  return `<svg viewBox="0 0 ${side} ${height}">${lowered}</svg>`;
};

describe('an exercise for a part in which nothing changes', () => {
  const taskOf = async (blanks: 'boxes' | 'none'): Promise<string> => {
    const made = await annotateBytes(
      annotator,
      new TextEncoder().encode(buildHarp(bar(note('C4', 4)))),
      { engraving: { edition: 'exercise', blanks } },
      'svg',
    );
    if (!made.ok) throw new Error(JSON.stringify(made.problem));
    return made.value.pages[0]!.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
  };

  it('asks for the setting alone, and for no change that is not there', async () => {
    const task = await taskOf('boxes');
    expect(task).toContain('none moves after the first note');
    expect(task).not.toContain('the pedal that moves there');
  });

  it('does not give that away where the pupil is to find the places', async () => {
    expect(await taskOf('none')).not.toContain('none moves');
  });
});

describe('the box of a setting', () => {
  it('has room for seven names in a hand’s size, and more in one row than in two', async () => {
    const widestOf = async (settingLook: 'diagram' | 'letters-two-rows'): Promise<number> => {
      const pages = await draw('pedal', { settingLook });
      const widthsMm = pages.flatMap((page) =>
        groupsOf(page, 'blank').map(({ attributes, span }) => {
          const scale = Number(/scale\(([\d.]+)\)/.exec(attributes.transform!)![1]);
          const width = Number(/ width="([\d.]+)"/.exec(page.slice(span.start, span.end))![1]);
          return (width * scale) / SVG_UNITS_PER_MM;
        }),
      );
      return Math.max(...widthsMm);
    };
    expect(await widestOf('diagram')).toBeGreaterThan(7 * 5);
    expect(await widestOf('letters-two-rows')).toBeGreaterThan(4 * 5);
  });
});

describe.each([['pedal'], ['lever']] as const)('an exercise for the %s harp', (harp) => {
  it('has boxes in which a pencil has room for a letter and its sign', async () => {
    const pages = await draw(harp, {});
    const heightsMm = pages.flatMap((page) =>
      groupsOf(page, 'blank').map(({ attributes, span }) => {
        const scale = Number(/scale\(([\d.]+)\)/.exec(attributes.transform!)![1]);
        const height = Number(/ height="([\d.]+)"/.exec(page.slice(span.start, span.end))![1]);
        return (height * scale) / SVG_UNITS_PER_MM;
      }),
    );
    expect(heightsMm.length).toBeGreaterThan(1);
    // The frame is a little smaller than the room that is kept for it.
    expect(Math.min(...heightsMm)).toBeGreaterThan(5.8);
  });

  it('has a box where each marking of the solution stands, and no marking', async () => {
    const pages = await draw(harp, {});
    const start = pages.findIndex((page) => MARKINGS.some((name) => groupsOf(page, name).length > 0));
    expect(start % 2).toBe(0);
    const [asked, solved] = [pages.slice(0, start), pages.slice(start)];
    expect(placesOf(asked, ...MARKINGS)).toEqual([]);
    expect(placesOf(asked, 'blank')).toEqual(placesOf(solved, ...MARKINGS));
    expect(placesOf(solved, 'blank')).toEqual([]);
    const frames = asked.flatMap((page) =>
      groupsOf(page, 'blank').flatMap((each) => descendantsNamed(each, 'rect')),
    );
    expect(frames).toHaveLength(placesOf(asked, 'blank').length);
  });

  it.runIf(harp === 'pedal')('has boxes of one width for one letter, whichever it is', async () => {
    const pages = await draw(harp, { naming: 'german', level: 'advanced' });
    const placeOf = ({ attributes }: XmlElement): string =>
      /translate\([^)]*\)/.exec(attributes.transform!)![0];
    const single = pages
      .flatMap((page) => groupsOf(page, 'pedal-change'))
      .filter((change) => !change.attributes['data-pedals']!.includes(' '))
      .filter((change) => !descendantsNamed(change, 'path').some(({ attributes }) => attributes.class));
    const places = new Set(single.map(placeOf));
    const widths = pages
      .flatMap((page) => groupsOf(page, 'blank'))
      .filter((each) => places.has(placeOf(each)))
      .flatMap((each) => descendantsNamed(each, 'rect').map(({ attributes }) => attributes.width));
    expect(widths.length).toBeGreaterThan(5);
    expect(new Set(widths).size).toBe(1);
  });

  it('shows no place where none is wanted', async () => {
    const pages = await draw(harp, { blanks: 'none' });
    const frames = pages.flatMap((page) =>
      groupsOf(page, 'blank').flatMap((each) => descendantsNamed(each, 'rect')),
    );
    expect(frames).toEqual([]);
    expect(placesOf(pages, ...MARKINGS).length).toBeGreaterThan(0);
  });

  it.each(['boxes', 'none'] as const)(
    'tells the task within the paper, clear of title and names, with blanks: %s',
    async (blanks) => {
      for (const [language, staffMm] of [
        ['english', 7],
        ['german', 8],
        ['spanish', 9],
      ] as const) {
        const [first = ''] = await draw(harp, { blanks, language, staffMm });
        expect(findTouchingWords(headOf(first, staffMm))).toEqual([]);
      }
    },
  );

  it('counts in every bar or in none where the pupil finds the places', async () => {
    const countedBars = async (choice: EngravingChoice): Promise<number> => {
      const pages = await draw(harp, choice);
      const ids = pages.flatMap((page) =>
        groupsOf(page, 'beat-count').map(({ attributes }) => attributes.id!),
      );
      return new Set(ids.map((id) => /count-\d+/.exec(id)![0])).size;
    };
    const [all, some, without] = [
      await countedBars({ blanks: 'none', beatCounts: 'every-bar' }),
      await countedBars({ blanks: 'boxes', beatCounts: 'bars-with-changes' }),
      await countedBars({ blanks: 'none', beatCounts: 'none' }),
    ];
    expect(some).toBeLessThan(all);
    expect(without).toBe(0);
    expect(await countedBars({ blanks: 'none', beatCounts: 'bars-with-changes' })).toBe(all);
  });

  it('gives nothing of the solution away, to readers of the file either', async () => {
    const pages = await draw(harp, { legend: true, changeWords: true, leverLook: 'notes' });
    const start = pages.findIndex((page) => MARKINGS.some((name) => groupsOf(page, name).length > 0));
    for (const page of pages.slice(0, start)) {
      expect(page).not.toMatch(
        /data-pedals|data-strings|Pedal (change|setting)|Lever change|How to read|foot</,
      );
      expect(treeOf(page).name).toBe('svg');
    }
  });
});

describe('an exercise', () => {
  it('says in each language what is to be done', async () => {
    const xml = new TextEncoder().encode(buildHarp(bar(note('C4', 4)), bar(note('C#4', 4))));
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const engraving = { edition: 'exercise', language } as const;
      const made = await annotateBytes(annotator, xml, { engraving }, 'svg');
      if (!made.ok) throw new Error(made.problem.code);
      const { exercise } = wordsOf({ language });
      expect(made.value.pages[0]).toContain(`>${exercise.title}`);
      expect(made.value.pages.at(-1)).toContain(exercise.solution);
    }
  });

  it('tells how the strings of a lever harp are tuned, and has the empty table of its levers in the box', async () => {
    const [first = ''] = await draw('lever', {});
    const [box] = groupsOf(first, 'blank');
    // Seven letters, the digits of the octaves, and the lines of the table; the levers are the pupil's to write.
    const harp = planPart(LEVERS, { levers: {} });
    if (harp.kind !== 'lever') throw new Error('the demo is for the lever harp');
    const octaves = new Set(stringsWithLevers(harp.profile).map(({ octave }) => octave));
    expect(descendantsNamed(box!, 'path')).toHaveLength(7 + octaves.size + 1);
    expect(descendantsNamed(box!, 'rect')).toHaveLength(1);
    expect(first).toContain('Tuning E');
  });
});

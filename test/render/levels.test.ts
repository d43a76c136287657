import { describe, expect, it } from 'vitest';
import { planPart } from '../../engine/plan-part.ts';
import { ENGRAVING_CATALOGUE } from '../../render/engraving-catalogue.ts';
import { completeEngraving, type EngravingChoice } from '../../render/engraving-options.ts';
import { usualAt } from '../../render/levels.ts';
import { LANGUAGES, type Language } from '../../render/words/language.ts';
import { wordsOf } from '../../render/words/words.ts';
import { demoScore } from '../demo-score.ts';
import { smallPart } from '../part-builder.ts';
import { groupsOf } from './page-tree.ts';
import { annotator } from './shared-annotator.ts';
import { bindPart, bindPlanned } from './study/bound-part.ts';

const PEDALS = demoScore('lanterns-at-the-lock');
const LEVERS = demoScore('the-ribbon-stall');
const PEDAL_PLAN = planPart(PEDALS, {});
const LEVER_PLAN = planPart(LEVERS, { levers: {} });

const draw = async (harp: 'pedal' | 'lever', choice: EngravingChoice) => {
  const [score, plan] = harp === 'pedal' ? [PEDALS, PEDAL_PLAN] : [LEVERS, LEVER_PLAN];
  const made = await annotator.engrave(score, plan, choice, 'svg');
  if (!made.ok) throw new Error(JSON.stringify(made.problem));
  return made.value.pages;
};

const textsIn = (pages: readonly string[], name: string): string[] =>
  pages.flatMap((page) =>
    groupsOf(page, name).map(({ span }) =>
      page
        .slice(span.start, span.end)
        .replace(/<title>.*?<\/title>|<[^>]*>/gs, ' ')
        .replace(/\s+/g, ' ')
        .trim(),
    ),
  );

describe('the description of the levels', () => {
  it('tells the staff, the rests and the bar numbers that they choose', () => {
    const { description } = ENGRAVING_CATALOGUE.level;
    const rest = usualAt('intermediate', 'pedal').settings?.afterRestBars;
    expect(description).toContain(`a staff of ${usualAt('beginner', 'lever').staffMm} mm`);
    expect(description).toContain(`after rests of ${rest === 2 ? 'two' : rest} bars`);
    expect(usualAt('beginner', 'pedal').barNumbers === 1).toBe(description.includes('every bar numbered'));
  });
});

describe('the beginner’s part', () => {
  it('has a full setting at every line', async () => {
    const pages = await draw('pedal', { level: 'beginner' });
    const lines = pages.flatMap((page) => groupsOf(page, 'system')).length;
    const settings = pages.flatMap((page) => groupsOf(page, 'pedal-setting')).length;
    expect(lines).toBeGreaterThan(10);
    expect(settings).toBeGreaterThanOrEqual(lines);
  });

  it('tells every change in words the first time, and with it all that are made there', async () => {
    const told = [
      ...textsIn(await draw('pedal', { level: 'beginner' }), 'pedal-change'),
      ...textsIn(await draw('pedal', { level: 'beginner' }), 'pedal-setting'),
    ].flatMap((text) =>
      [...text.matchAll(/[A-G] to (flat|natural|sharp),? (left|right) foot/g)].map(([all]) =>
        all.replace(',', ''),
      ),
    );
    const wanted = new Set(
      PEDAL_PLAN.plan.moves.map((move) => `${'letter' in move ? move.letter : ''} ${move.to}`),
    );
    expect(new Set(told).size).toBe(wanted.size);
    // A place with one that is new tells the others of it again; no more than that.
    expect(told.length).toBeLessThan(PEDAL_PLAN.plan.moves.length);
  });

  it('counts the beats of every bar that is played', async () => {
    const counts = textsOf(await draw('pedal', { level: 'beginner' }));
    const played = new Set(PEDALS.notes.map(({ bar }) => bar));
    const beats = PEDALS.bars.filter(({ index }) => played.has(index)).map(({ meter }) => meter.beats);
    expect(counts).toBe(beats.reduce((sum, each) => sum + each, 0));
  });

  it('has for levers the table at every line before which one has moved, and names each hand', async () => {
    const pages = await draw('lever', { level: 'beginner' });
    const tables = pages.flatMap((page) => groupsOf(page, 'lever-start'));
    const up = tables.map(({ attributes }) => attributes['data-strings']);
    expect(up.length).toBeGreaterThan(2);
    up.slice(1).forEach((strings, i) => void expect(strings).not.toBe(up[i]));
    expect(textsIn(pages, 'lever-change').join(' ')).toContain('up l.h.');
  });
});

const textsOf = (pages: readonly string[]): number =>
  pages.flatMap((page) => groupsOf(page, 'beat-count')).length;

describe('the levels', () => {
  it('lie between one another in what they print', async () => {
    const signs = await Promise.all(
      (['beginner', 'intermediate', 'advanced'] as const).map(async (level) => {
        const pages = await draw('pedal', { level });
        return textsOf(pages) + pages.flatMap((page) => groupsOf(page, 'pedal-setting')).length;
      }),
    );
    expect(signs[0]).toBeGreaterThan(signs[1]!);
    expect(signs[1]).toBeGreaterThan(signs[2]!);
  });

  it('are the same as no level for the stand', () => {
    expect(completeEngraving({ level: 'advanced' })).toEqual(completeEngraving());
  });

  it('give way to what is chosen', () => {
    const chosen = completeEngraving({ level: 'beginner', staffMm: 6, settings: { systemStart: false } });
    expect(chosen).toMatchObject({ staffMm: 6, changeWords: true, settings: { systemStart: false } });
    expect(completeEngraving({ level: 'beginner', settings: { start: false } }).settings).toMatchObject({
      start: false,
      systemStart: true,
    });
  });

  it('explain the markings of a study edition before the part, in each language', () => {
    for (const language of Object.keys(LANGUAGES) as Language[]) {
      const { reading } = wordsOf({ language });
      const score = smallPart({ upper: 'C4/2 C#4/2' });
      const { bound } = bindPart(score, { language, level: 'beginner' });
      const page = bound.bookmarks.find(({ text }) => text === reading.title)!.page;
      expect(page).toBeLessThan(
        bound.bookmarks.find(({ text }) => text === wordsOf({ language }).study.part)!.page,
      );
      const lever = bindPlanned(LEVERS, LEVER_PLAN, { language, level: 'intermediate' }).bound;
      expect(lever.bookmarks.map(({ text }) => text)).toContain(reading.title);
    }
    const { bound } = bindPart(smallPart({ upper: 'C4/2 C#4/2' }));
    expect(bound.bookmarks.map(({ text }) => text)).not.toContain('How the markings are read');
  });
});

describe('the width of full settings', () => {
  const widthOf = async (choice: EngravingChoice): Promise<number> => {
    const [page = ''] = await draw('pedal', choice);
    const [first] = groupsOf(page, 'pedal-setting');
    return Number(
      /scale\(([\d.]+)\)"[^>]*><path|<g transform="scale\(([\d.]+)\)/.exec(
        page.slice(first!.span.start),
      )?.[2],
    );
  };

  it('is its own, whatever the height of the staff', async () => {
    const [small, large] = await Promise.all([
      widthOf({ settingMm: 50, staffMm: 5 }),
      widthOf({ settingMm: 50, staffMm: 10 }),
    ]);
    expect(small / large).toBeCloseTo(2, 1);
  });

  it('is refused where the paper is too narrow, and says what would do', async () => {
    const made = await annotator.engrave(PEDALS, PEDAL_PLAN, { settingMm: 200 }, 'svg');
    expect(made).toMatchObject({
      ok: false,
      problem: { code: 'unsupported', advice: expect.stringContaining('150 mm') },
    });
    const wall = await annotator.engrave(PEDALS, PEDAL_PLAN, { settingMm: 200, paper: 'a3' }, 'plan');
    expect(wall.ok).toBe(true);
  });
});

describe('the explanation of the signs', () => {
  it('shows each sign under its heading, also where the table of the levers is higher than its lines', async () => {
    const page = (await draw('lever', { level: 'beginner' })).at(-1)!;
    const notes = /<svg class="closing-notes"[\s\S]*/.exec(page)![0];
    const heading = Number(/<text x="[\d.]+" y="([\d.]+)"[^>]*font-weight="bold"/.exec(notes)![1]);
    const drawn = [...notes.matchAll(/translate\(([\d.]+) ([\d.]+)\) scale/g)];
    // Parts of a drawing are moved within it.
    const tops = drawn.filter(([, left]) => left === drawn[0]![1]).map(([, , top]) => Number(top));
    expect(tops.length).toBeGreaterThan(1);
    expect(Math.min(...tops)).toBeGreaterThan(heading);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { settingFrom } from '../../../engine/harp/setting.ts';
import { rational } from '../../../engine/music/rational.ts';
import { openScore } from '../../../engine/score/open.ts';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { type Standing, standingX0 } from '../../../render/layout/spaces/stance.ts';
import { SETTING_LOOK_NAMES } from '../../../render/looks/setting-looks.ts';
import { standingFinder } from '../../../render/markings/standing.ts';
import {
  BACKWARD,
  buildHarp,
  FORWARD,
  note,
  readHarp,
  rest,
} from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { changesAgainstNotes, noteheadsOf } from '../changes-against-notes.ts';
import { PLAIN_SETTING } from '../marking-builder.ts';
import { groupsOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';

const pagesOf = async (bytes: Uint8Array, engraving: EngravingChoice = {}): Promise<readonly string[]> => {
  const annotated = await annotateBytes(annotator, bytes, { engraving }, 'svg');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  return annotated.value.pages;
};

const xOf = ({ attributes }: XmlElement): number =>
  Number(/translate\((-?[\d.]+)/.exec(attributes.transform ?? '')![1]);

const encode = (xml: string): Uint8Array => new TextEncoder().encode(xml);

/** Of a staff of the usual size, in the units of a page. */
const SPACE = 180;

describe('words under a change', () => {
  const standing: Standing = {
    stance: 'from',
    begins: [],
    endsBefore: ['next'],
    beginsInBar: true,
    endsInBar: false,
  };
  const around = { bar: { x0: 0, x1: 900 }, leftEdges: new Map([['next', 260]]), unitsPerVu: 10 };

  it('may reach under the note that its letter ends before, and leave the letter at its beat', () => {
    expect(standingX0({ ...standing, endVu: 5 }, 200, 150, around)).toBe(200);
  });

  it('push the letter back where they have to end before the note themselves', () => {
    expect(standingX0(standing, 200, 150, around)).toBe(110);
  });

  it('may reach over the end of its bar, and leave the letter at its beat', () => {
    const inBar: Standing = { ...standing, endsBefore: [], endsInBar: true };
    expect(standingX0({ ...inBar, endVu: 5 }, 800, 150, around)).toBe(800);
  });

  it('stand before its moment where they begin before the letter', () => {
    const late: Standing = { ...standing, endsBefore: [], endsInBar: true };
    expect(standingX0({ ...late, startVu: 10, endVu: 15 }, 800, 150, around)).toBe(700);
  });

  it.each([
    ['after its last note', note('Bb3', 1) + note('D4', 1) + note('E4', 2), note('B3', 4), 2],
    ['at its last note', note('D4', 1) + note('E4', 1) + note('Bb3', 1) + note('F4', 1), note('B3', 4), 3],
    ['in a rest', note('Bb3', 2) + rest(2), note('B3', 4), 0],
  ])('leave the letter between the notes where the foot moves, %s', async (_, bar, next, after) => {
    const bytes = encode(buildHarp(bar, next));
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const pages = await pagesOf(bytes, { level: 'beginner' });
    const [change] = groupsOf(pages[0]!, 'pedal-change');
    const own = descendantsNamed(change!, 'g')
      .flatMap(({ attributes }) => /^translate\((-?[\d.]+) 0\)$/.exec(attributes.transform ?? '')?.[1] ?? [])
      .map(Number)[0]!;
    const scale = Number(/scale\(([\d.]+)/.exec(change!.attributes.transform!)![1]);
    const letterX = xOf(change!) + scale * own;
    const heads = noteheadsOf(pages[0]!);
    const headX = (index: number): number => heads.get(opened.value.notes[index]!.id)!;
    expect(letterX).toBeGreaterThan(headX(after) - SPACE);
    expect(letterX).toBeLessThan(headX(after + 1) - SPACE);
  });
});

describe('a change', () => {
  const events = fc.constantFrom(
    'c4.8',
    'c#4.8',
    'db5.8',
    'd4.8',
    'f#4.8',
    'f4.8',
    'bb3.8',
    'b3.8',
    'r.8',
    'g#5.8',
  );
  const bars = fc.array(
    fc.array(events, { minLength: 8, maxLength: 8 }).map((bar) => `${bar.join(' ')}/c2.2 r.2`),
    { minLength: 2, maxLength: 6 },
  );
  const looks = fc.record({
    placement: fc.constantFrom('below' as const, 'above' as const, 'between' as const),
    settingLook: fc.constantFrom(...SETTING_LOOK_NAMES),
    naming: fc.constantFrom('english' as const, 'german' as const, 'fixed-do' as const),
  });

  it('never starts right of its note, whatever the look, and ends before it where it is not crowded', async () => {
    await fc.assert(
      fc.asyncProperty(bars, looks, async (music, engraving) => {
        const bytes = meiScore({ bars: music });
        const opened = openScore(bytes);
        if (!opened.ok) throw new Error('unreadable');
        const compared = changesAgainstNotes(opened.value, await pagesOf(bytes, engraving));
        for (const { start, noteX } of compared) expect(start).toBeLessThanOrEqual(noteX);
      }),
      { numRuns: 10 },
    );
  });

  it('stands under its note, a wedge before it, where it is made with it: not under the note before', async () => {
    const bytes = meiScore({ bars: ['d4.8 c4.8 c#4.8 d4.8 d4.8 c#4.8 c4.8 d4.8/R'] });
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const compared = changesAgainstNotes(opened.value, await pagesOf(bytes));
    expect(compared).toHaveLength(2);
    for (const { start, end, noteX, wedgeX } of compared) {
      expect(start).toBeGreaterThan(noteX - 3 * SPACE);
      expect(Math.abs(wedgeX! - noteX)).toBeLessThan(SPACE);
      expect(end).toBeGreaterThan(noteX + SPACE);
    }
  });

  it('ends where its note begins at the latest, and is over the middle of its note where it stands at the notes', async () => {
    const bytes = meiScore({ bars: ['c4.2 c#4.2/c2.1', 'f4.4 f#4.4 f4.2/c#2.1'] });
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const atFoot = changesAgainstNotes(opened.value, await pagesOf(bytes));
    expect(atFoot.length).toBeGreaterThan(2);
    for (const { end, wedgeX, noteX } of atFoot) expect(wedgeX ?? end).toBeLessThanOrEqual(noteX);
    const atNote = changesAgainstNotes(opened.value, await pagesOf(bytes, { marksAt: 'note' }));
    for (const { start, end, noteX } of atNote) {
      expect(start).toBeLessThanOrEqual(noteX);
      expect(end).toBeGreaterThan(noteX);
    }
  });

  it('makes no hole in a run where it stands right behind a full setting', async () => {
    const bytes = meiScore({
      bars: ['c4.8 d4.8 d#4.8 e4.8 f4.8 e4.8 f4.8 e4.8/R', 'c4.8 d4.8 e4.8 d4.8 e4.8 f4.8 e4.8 d4.8/R'],
    });
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const [page] = await pagesOf(bytes, { marksAt: 'note' });
    expect(groupsOf(page!, 'pedal-change').length).toBeGreaterThan(0);
    const heads = noteheadsOf(page!);
    const xs = opened.value.notes.slice(0, 5).map(({ id }) => heads.get(id)!);
    const gaps = xs.slice(1).map((x, i) => x - xs[i]!);
    expect(Math.max(...gaps) / Math.min(...gaps)).toBeLessThan(1.5);
  });

  it('stands under what sounds when the foot moves where it is needed later, and not under its opposite before', async () => {
    const bytes = meiScore({ bars: ['c4.4 d4.4 e4.4 c#4.4/c2.1', 'r.1/c#2.1'] });
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const [page] = await pagesOf(bytes);
    const [change] = groupsOf(page!, 'pedal-change');
    expect(change!.attributes['data-pedals']).toBe('C♯');
    const [compared] = changesAgainstNotes(opened.value, [page!]);
    const natural = groupsOf(page!, 'note').find(
      (group) => group.attributes.id === opened.value.notes[0]!.id,
    )!;
    const naturalX = Number(
      /translate\((-?[\d.]+)/.exec(descendantsNamed(natural, 'use')[0]!.attributes.transform ?? '')?.[1],
    );
    expect(compared!.start).toBeGreaterThan(naturalX);
  });

  it('is inside its bar, though the bar has more beats than its meter', async () => {
    const overfull = `${note('C4', 4)}${note('D4', 1)}${note('C#4', 1)}`;
    const [page] = await pagesOf(encode(buildHarp(overfull, note('C#4', 4))));
    const [change] = groupsOf(page!, 'pedal-change');
    const [, second] = groupsOf(page!, 'measure');
    const line = descendantsNamed(second!, 'path')[0]!.attributes.d!;
    expect(xOf(change!)).toBeLessThan(Number(/^M(-?[\d.]+)/.exec(line)![1]));
    expect(change!.attributes['data-bar-index']).toBe('0');
  });

  it('for the second time stands behind the repeat sign to which the music comes back', async () => {
    const score = buildHarp(note('E4', 4), FORWARD + note('C4', 4), note('C#4', 4) + BACKWARD);
    const [page] = await pagesOf(encode(score));
    const [again] = groupsOf(page!, 'pedal-change');
    expect(again!.children[0]!.text).toBe('Pedal change 2nd time C♮');
    const line = descendantsNamed(groupsOf(page!, 'measure')[1]!, 'path')[0]!.attributes.d!;
    expect(xOf(again!)).toBeGreaterThan(Number(/^M(-?[\d.]+)/.exec(line)![1]));
  });
});

describe('a setting', () => {
  it('begins in its bar, and so does one before a glissando', async () => {
    const mark = (i: number) => `<reh tstamp="1" staff="1">${i}</reh>`;
    const bars = ['c4.1/R', 'd4.1/R', 'e4.1/R', 'c#4.1/R'];
    const [page] = await pagesOf(meiScore({ bars, events: { 2: mark(1) } }), {
      settingLook: 'letters-one-row',
    });
    const third = descendantsNamed(groupsOf(page!, 'measure')[2]!, 'path')[0]!.attributes.d!;
    const settings = groupsOf(page!, 'pedal-setting');
    expect(settings).toHaveLength(2);
    expect(xOf(settings[1]!)).toBeGreaterThanOrEqual(Number(/^M(-?[\d.]+)/.exec(third)![1]));
  });

  it('ends in its bar too where the harp rests all through it', () => {
    const standing = standingFinder(readHarp(note('C4', 4), rest(4), rest(2) + note('D4', 2)), 'foot');
    const endsInBar = (bar: number): boolean =>
      standing({
        ...PLAIN_SETTING,
        ...{ kind: 'setting', setting: settingFrom(() => 0), changed: [], id: 'marking-1', graceNote: null },
        ...{ at: rational(4 * bar), bar, beat: rational(1) },
      }).endsInBar;
    expect([0, 1, 2].map(endsInBar)).toEqual([false, true, false]);
  });
});

describe('where a drawing begins', () => {
  const places = fc.integer({ min: 0, max: 1000 });

  it('leaves it left of every note that it ends before, unless its bar is too short for it', () => {
    fc.assert(
      fc.property(
        places,
        places,
        fc.integer({ min: 1, max: 300 }),
        fc.boolean(),
        (laid, edge, width, isNote) => {
          const standing: Standing = {
            stance: isNote ? 'before' : 'from',
            begins: [],
            endsBefore: ['n'],
            beginsInBar: false,
            endsInBar: true,
          };
          const around = { bar: { x0: 0, x1: 1000 }, leftEdges: new Map([['n', edge]]), unitsPerVu: 10 };
          expect(standingX0(standing, laid, width, around) + width).toBeLessThanOrEqual(edge);
        },
      ),
    );
  });

  it('is after the bar line for what must begin in its bar', () => {
    const standing: Standing = {
      ...{ stance: 'before', begins: [], endsBefore: ['n'] },
      ...{ beginsInBar: true, endsInBar: false },
    };
    const around = { bar: { x0: 500, x1: 900 }, leftEdges: new Map([['n', 530]]), unitsPerVu: 10 };
    expect(standingX0(standing, 400, 200, around)).toBe(508);
  });
});

describe('a rest', () => {
  it('has the change of its moment beside it, which ends before the next note', async () => {
    const bytes = encode(buildHarp(`${note('C4', 1)}${rest(2)}${note('D4', 1)}`, note('C#4', 4)));
    const opened = openScore(bytes);
    if (!opened.ok) throw new Error('unreadable');
    const compared = changesAgainstNotes(opened.value, await pagesOf(bytes));
    expect(compared).toHaveLength(1);
    expect(compared[0]!.end).toBeLessThanOrEqual(compared[0]!.noteX);
  });
});

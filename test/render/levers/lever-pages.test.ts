import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { stringsWithLevers } from '../../../engine/harp/levered-strings.ts';
import { E_FLAT_TUNING, tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { planPart } from '../../../engine/plan-part.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { openScoreFile } from '../../../engine/score/open-file.ts';
import { descendantsNamed, type XmlElement } from '../../../engine/xml/tree.ts';
import type { Drawing } from '../../../render/draw/drawing.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { drawLeverChange, drawLeverStart } from '../../../render/levers/draw-levers.ts';
import type { LeverNameChange } from '../../../render/levers/lever-change.ts';
import { leverPlanFor, type SmallLeverPlan } from '../../lever-plan-builder.ts';
import { drawnPart } from '../drawn-part.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { annotator } from '../shared-annotator.ts';
import { meiScore } from '../small-score.ts';

const everyTime = (changes: readonly LeverNameChange[]) => ({
  ...{ changes, onReturn: [], atOneTime: [], inWords: [] },
  timesPlayed: 1,
});

const open = (bytes: Uint8Array): Score => {
  const opened = openScore(bytes, {});
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const FAIR = open(
  new Uint8Array(readFileSync(new URL('../../../server/demo/the-ribbon-stall.musicxml', import.meta.url))),
);

const FAIR_PLAN: SmallLeverPlan = {
  up: 'A3 A4 A5',
  moves: ['9.4 F#4', '16.4 F4', '18.4 E3', '22.4 Eb3', '29.4 Ab5'],
};

const pagesOf = async (
  score: Score,
  plan: SmallLeverPlan,
  engraving: EngravingChoice = {},
): Promise<readonly string[]> => {
  const engraved = await annotator.engrave(score, leverPlanFor(score, plan), engraving, 'svg');
  if (!engraved.ok) throw new Error(JSON.stringify(engraved.problem));
  return engraved.value.pages;
};

const markingsOn = (pages: readonly string[]): XmlElement[] =>
  pages.flatMap((page) => groupsOf(page, 'lever-marking'));

const told = (pages: readonly string[]): string[] =>
  markingsOn(pages).map(
    ({ attributes }) => `${attributes['data-bar']}.${attributes['data-beat']} ${attributes['data-strings']}`,
  );

const CHANGES = ['9.4 F♯4', '16.4 F♮4', '18.4 E♮3', '22.4 E♭3', '29.4 A♭5'];

describe('a page for the lever harp', () => {
  it('tells the tuning and every change to programs and to readers', async () => {
    const pages = await pagesOf(FAIR, FAIR_PLAN);
    expect(told(pages)).toEqual(['1.1 A♮3 A♮4 A♮5', ...CHANGES]);
    const [start, change] = markingsOn(pages);
    expect(start!.attributes).toMatchObject({ 'data-tuning': 'E♭ major', role: 'img' });
    expect(start!.children[0]).toMatchObject({
      name: 'title',
      text: 'Tuning E♭ major. Levers up: A♮3, A♮4, A♮5',
    });
    expect(change!.children[0]!.text).toBe('Lever change F♯4');
  });

  it('shows the changes as small notes with the same facts, and none of them is lost', async () => {
    const pages = await pagesOf(FAIR, FAIR_PLAN, { leverLook: 'notes' });
    expect(told(pages).sort()).toEqual(['1.1 A♮3 A♮4 A♮5', ...CHANGES].sort());
    const notes = markingsOn(pages).filter(({ attributes }) => attributes.class?.includes('lever-note'));
    // In bar 29 nothing begins on the fourth beat of the upper staff, but a rest does on the lower.
    expect(notes).toHaveLength(5);
    expect(notes.every((note) => descendantsNamed(note, 'use').length === 2)).toBe(true);
  });

  it('names the string of a note that is played on another, unless the user wants it plain', async () => {
    const score = open(meiScore({ bars: ['cb5.2 a4.2/R'] }));
    const played = leverPlanFor(score, {});
    const [note] = score.notes;
    const to = { letter: 'B', alter: 0, octave: 4 } as const;
    const plan = { ...played.plan, respellings: [{ note: note!.id, from: note!.pitch, to }] };
    const words = async (engraving: EngravingChoice): Promise<string> => {
      const engraved = await annotator.engrave(score, { ...played, plan }, engraving, 'svg');
      if (!engraved.ok) throw new Error(JSON.stringify(engraved.problem));
      const texts = engraved.value.pages.flatMap((page) =>
        descendantsNamed(treeOf(page), 'text').map(({ span }) => page.slice(span.start, span.end)),
      );
      return texts.map((text) => text.replace(/<[^>]*>|\s/g, '')).join(' ');
    };
    expect(await words({})).toMatch(/=B/);
    expect(await words({ naming: 'german' })).toMatch(/=H/);
    expect(await words({ naming: 'fixed-do' })).toMatch(/=Si/);
    expect(await words({ respelledLook: 'plain' })).not.toMatch(/=[BH]/);
  });

  it('puts changes between the staves where the user has chosen nothing, and above or below on request', async () => {
    const heightAt = async (placement: 'between' | 'above' | 'below'): Promise<number> => {
      const [page] = await pagesOf(FAIR, FAIR_PLAN, placement === 'between' ? {} : { placement });
      const change = markingsOn([page!])[1]!;
      return Number(/translate\([\d.]+ (-?[\d.]+)/.exec(change.attributes.transform!)![1]);
    };
    const between = await heightAt('between');
    expect(await heightAt('above')).toBeLessThan(between);
    expect(between).toBeLessThan(await heightAt('below'));
  });

  it('keeps chord symbols and counts at the staff of every line, under the table of the levers', async () => {
    const events = Object.fromEntries(
      Array.from({ length: 24 }, (_, bar) => [bar, '<harm staff="1" tstamp="1">Gm</harm>']),
    );
    const score = open(
      meiScore({ bars: Array.from({ length: 24 }, () => 'g4.4 bb4.4 d5.4 f5.4/R'), events }),
    );
    const look = { leverTables: 'each-line', staffMm: 8, beatCounts: 'every-bar' } as const;
    // Where levers move in every bar, each line has its table.
    const moves = Array.from({ length: 24 }, (_, bar) => `${bar + 1}.4 ${bar % 2 === 0 ? 'Ab4' : 'A4'}`);
    const pages = await pagesOf(score, { up: 'A4 C5', moves }, look);
    const lines = pages.flatMap((page) => groupsOf(page, 'system'));
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines) {
      const [table] = groupsIn(line, 'lever-start');
      const staffTop = Number(
        /^M\S+ ([\d.-]+)/.exec(descendantsNamed(groupsIn(line, 'staff')[0]!, 'path')[0]!.attributes.d!)![1],
      );
      const counts = groupsIn(line, 'beat-count').map(shiftOf);
      expect(counts.length).toBeGreaterThan(0);
      for (const y of counts) {
        expect((staffTop - y) / 100).toBeLessThan(12);
        expect(y).toBeGreaterThan(shiftOf(table!));
      }
      const symbols = groupsIn(line, 'harm').map(
        (symbol) => shiftOf(symbol) + Number(descendantsNamed(symbol, 'text')[0]!.attributes.y),
      );
      expect(symbols.length).toBeGreaterThan(0);
      for (const y of symbols) {
        expect((staffTop - y) / 100).toBeLessThan(6);
        expect(y).toBeGreaterThan(shiftOf(table!));
      }
    }
  });

  it('keeps a rehearsal mark at the staff, under the table of the levers', async () => {
    const events = { 0: '<reh staff="1" tstamp="1"><rend fontweight="bold">A</rend></reh>' };
    const score = open(meiScore({ bars: ['g4.4 a4.4 g4.4 a4.4/R', 'g4.1/R'], events }));
    const [page] = await pagesOf(score, { up: 'A4 C5' });
    const [line] = groupsOf(page!, 'system');
    const [mark] = groupsIn(line!, 'reh');
    const [table] = groupsIn(line!, 'lever-start');
    const y = shiftOf(mark!) + Number(descendantsNamed(mark!, 'text')[0]!.attributes.y);
    const staffTop = Number(
      /^M\S+ ([\d.-]+)/.exec(descendantsNamed(groupsIn(line!, 'staff')[0]!, 'path')[0]!.attributes.d!)![1],
    );
    expect(y).toBeGreaterThan(shiftOf(table!));
    expect((staffTop - y) / 100).toBeLessThan(6);
  });

  it('sets a small note under an octave line where its string is read', async () => {
    // Written an octave lower under the line: F sharp is three steps above C either way.
    const line = '<octave dis="8" dis.place="above" staff="1" tstamp="1" tstamp2="0m+4"/>';
    const plain = open(meiScore({ bars: ['c6.4 d6.4 c6.4 d6.4/R'] }));
    const lined = open(meiScore({ bars: ['c5.4 d5.4 c5.4 d5.4/R'], events: { 0: line } }));
    const distanceIn = async (score: Score): Promise<number> => {
      const [page] = await pagesOf(score, { moves: ['1.3 F#6'] }, { leverLook: 'notes' });
      return yOfHead(page!, 'marking-2-1') - yOfHead(page!, score.notes[2]!.id);
    };
    const distance = await distanceIn(plain);
    expect(distance).toBeLessThan(0);
    expect(await distanceIn(lined)).toBeCloseTo(distance);
  });
});

const groupsIn = (line: XmlElement, name: string): XmlElement[] =>
  descendantsNamed(line, 'g').filter(({ attributes }) => attributes.class?.split(' ').includes(name));

/** How far down a group is moved. */
const shiftOf = ({ attributes }: XmlElement): number =>
  Number(/translate\([\d.-]+,? ?([\d.-]+)/.exec(attributes.transform ?? '')?.[1] ?? 0);

/** The height on the page at which the head of a note stands. */
const yOfHead = (page: string, id: string): number => {
  const note = descendantsNamed(treeOf(page), 'g').find(({ attributes }) => attributes.id === id)!;
  const [head] = descendantsNamed(note, 'use');
  return Number(/translate\([\d.-]+,? ?([\d.-]+)/.exec(head!.attributes.transform!)![1]);
};

const picture = ({ box, body, words = '' }: Pick<Drawing, 'box' | 'body' | 'words'>): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${(box.widthVu * 10).toFixed(2)}" ` +
  `height="${(box.heightVu * 10).toFixed(2)}" viewBox="0 0 ${box.widthVu.toFixed(4)} ${box.heightVu.toFixed(4)}">\n` +
  `${(body + words).replaceAll('><', '>\n<')}\n</svg>\n`;

const string = (letter: 'A' | 'F' | 'C', octave: number) => ({ letter, octave });
const START = {
  kind: 'levers' as const,
  ...{ id: 'marking-1', at: { num: 0, den: 1 }, bar: 0, beat: { num: 1, den: 1 }, graceNote: null },
  isReminder: false,
  tuning: E_FLAT_TUNING,
  up: [2, 3, 4, 5, 6]
    .map((octave) => ({ string: string('A', octave), alter: 0 }))
    .concat([{ string: string('F', 4), alter: 1 }]),
  levers: stringsWithLevers(LEVER_HARP),
};

describe('levers that are told before the first note', () => {
  const ofLetter = (letter: 'A' | 'F' | 'C', octaves: readonly number[], alter: number) =>
    octaves.map((octave) => ({ string: string(letter, octave), alter }));

  it('are told by octaves that follow each other where they are many', () => {
    const up = [
      ...ofLetter('A', [2, 3, 4, 5], 0),
      ...ofLetter('C', [3, 4, 6], 1),
      ...ofLetter('F', [3, 5], 1),
    ];
    const { text } = drawLeverStart({ ...START, up }, completeEngraving());
    expect(text).toContain('Levers up A♮2–5 C♯3–4 F♯3 F♯5 C♯6');
  });

  it('are named one by one where they are few', () => {
    const { text } = drawLeverStart({ ...START, up: ofLetter('A', [3, 4, 5], 0) }, completeEngraving());
    expect(text).toContain('Levers up A♮3 A♮4 A♮5');
  });
});

describe('the table of the levers', () => {
  it('is not told again before a lever has moved', async () => {
    const score = open(meiScore({ bars: Array.from({ length: 24 }, () => 'g4.4 g4.4 g4.4 g4.4/R') }));
    const tables = async (...moves: readonly string[]): Promise<number> => {
      const pages = await pagesOf(score, { up: 'A4', moves }, { leverTables: 'each-line', staffMm: 8 });
      return pages.flatMap((page) => groupsOf(page, 'lever-start')).length;
    };
    expect(await tables()).toBe(1);
    expect(await tables('2.1 Ab4')).toBe(2);
  });
});

describe('what we draw looks as it did when it was looked at', () => {
  it.each([
    ['lever-start', drawLeverStart(START, completeEngraving())],
    [
      'lever-start-fixed-do',
      drawLeverStart({ ...START, tuning: tuneToKey(0), up: [] }, completeEngraving({ naming: 'fixed-do' })),
    ],
    [
      'lever-change',
      drawLeverChange(
        everyTime([
          { string: string('F', 4), alter: 1, hand: 'left' },
          { string: string('C', 5), alter: 0, hand: 'left' },
        ]),
        { naming: 'english', language: 'english', leverHands: false },
      ),
    ],
    [
      'lever-change-german',
      drawLeverChange(
        everyTime([
          { string: string('F', 4), alter: 2, hand: 'left' },
          { string: string('A', 5), alter: -1, hand: 'right' },
        ]),
        { naming: 'german', language: 'german', leverHands: false },
      ),
    ],
    [
      'lever-change-hands',
      drawLeverChange(
        everyTime([
          { string: string('C', 4), alter: 1, hand: 'left' },
          { string: string('F', 4), alter: 1, hand: 'left' },
          { string: string('A', 5), alter: -1, hand: 'right' },
        ]),
        { naming: 'english', language: 'english', leverHands: true },
      ),
    ],
  ])('%s', async (name, art) => {
    await expect(picture(art)).toMatchFileSnapshot(`../../golden/${name}.svg`);
  });
});

/** Notes, a chord, beams, low and high strings, and a bar in which nothing begins at the change. */
const BARS = [
  'f4.4 g4.4 bb4.8 a4.8 g4.4/eb3.2 r.2',
  'f#4.2 g4.2/d3+f#3.2 d3.2',
  'f4.1/bb2.1',
  'f#5.2 f4+bb4.2/c3.2 r.2',
];
const MOVES = ['1.3 F#4 F#3', '2.3 F4', '3.3 F#5', '4.3 F3'];

describe('a page for the lever harp looks as it did when it was looked at', () => {
  it.each([
    ['lever-page-names', {}],
    ['lever-page-notes', { leverLook: 'notes' }],
    ['lever-page-below', { placement: 'below', naming: 'german' }],
    ['lever-page-above', { placement: 'above', naming: 'fixed-do' }],
  ] as const)('%s', async (name, engraving) => {
    const score = open(meiScore({ bars: BARS }));
    const paper = { widthMm: 180, heightMm: 100 };
    const pages = await pagesOf(score, { up: 'A3 A4', moves: MOVES }, { paper, ...engraving });
    expect(pages).toHaveLength(1);
    await expect(drawnPart(pages[0]!)).toMatchFileSnapshot(`../../golden/${name}.svg`);
  });
});

describe('a beginner’s tune of four lines, with a table over most of them', () => {
  it('stands on one page with its explanations: no hand is free to turn', async () => {
    const tune = [
      ...['X:1', 'T:The Bent Key', 'M:4/4', 'L:1/4', 'Q:1/4=96', 'K:A', 'P:A'],
      '|:e/d/|"A"cA AE|"A"A/B/c/d/ e2|"D"f/e/d/c/ eA|"G"d/=c/B/A/ =Ge/d/|',
      '"A"cA EE|"A"A/B/c/d/ e2|"D"f/e/d/c/ "E"e/f/e/d/|"A"cA A:|',
      'P:B',
      '|:c/d/|"A"ea ca|"A"e/f/e/c/ AB/=c/|"G"d=g Bg|"G"d/e/d/B/ =Gc/d/|',
      '"A"ea ca|"A"e/f/e/c/ AB/c/|"E"d/c/B/A/ ^G/B/e/d/|"A"cA A:|',
    ].join('\n');
    const opened = await openScoreFile(new TextEncoder().encode(tune));
    if (!opened.ok) throw new Error(opened.problem.code);
    const plan = planPart(opened.value, { levers: {} });
    const engraved = await annotator.engrave(opened.value, plan, { level: 'beginner' }, 'svg');
    expect(engraved.ok && engraved.value.pages).toHaveLength(1);
  });
});

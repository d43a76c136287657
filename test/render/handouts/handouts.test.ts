import { quantileSorted } from 'd3-array';
import { Chord, Note, Scale } from 'tonal';
import { beforeAll, describe, expect, it } from 'vitest';
import { HARPS } from '../../../engine/harp/harps.ts';
import { POSITIONS } from '../../../engine/harp/setting.ts';
import { ALL_SETTINGS, pitchClassOf } from '../../../engine/harp/setting-sound.ts';
import { descendantsNamed } from '../../../engine/xml/tree.ts';
import type { EngravingChoice } from '../../../render/engraving-options.ts';
import { drawHandout } from '../../../render/handouts/draw-handout.ts';
import { HANDOUT_NAMES, type HandoutName } from '../../../render/handouts/handout-words.ts';
import { discsHolding } from '../../../render/handouts/pedals.ts';
import { SVG_UNITS_PER_MM } from '../../../render/layout/breaks/page-layout.ts';
import { groupsOf, treeOf } from '../page-tree.ts';
import { findTouchingWords } from '../touching-words.ts';

type Choice = Pick<EngravingChoice, 'paper' | 'naming'>;

const drawAnew = async (name: HandoutName, choice: Choice = {}) => {
  const drawn = await drawHandout(name, choice);
  if (!drawn.ok) throw new Error(drawn.problem.code);
  return drawn.value;
};

const known = new Map<string, ReturnType<typeof drawAnew>>();

/** Draws a chart; done once for all claims about it. */
const draw = (name: HandoutName, choice: Choice = {}): ReturnType<typeof drawAnew> => {
  const key = JSON.stringify([name, choice]);
  const made = known.get(key) ?? drawAnew(name, choice);
  known.set(key, made);
  return made;
};

const LOOKS: readonly (readonly [string, Choice])[] = [
  ['A4', {}],
  ['small paper', { paper: { widthMm: 100, heightMm: 130 }, naming: 'fixed-do' }],
  ['A3', { paper: 'a3' }],
];

describe.each(HANDOUT_NAMES)('the wall chart %s', (name) => {
  it.each(LOOKS)('has no words that touch others or leave the paper, %s', async (_look, choice) => {
    const { pages, pdf } = await draw(name, choice);
    expect(pages.flatMap(findTouchingWords)).toEqual([]);
    expect(Buffer.from(pdf.subarray(0, 5)).toString()).toBe('%PDF-');
  });

  it('is the same each time', async () => {
    expect(Buffer.compare((await drawAnew(name)).pdf, (await draw(name)).pdf)).toBe(0);
  });
});

/** The letters in which most of a sheet's words stand, in millimetres. */
const usualLetters = (page: string): number => {
  const sizes = [...page.matchAll(/<text [^>]*font-size="(\d+)px"/g)].map(([, size]) => Number(size));
  return (
    quantileSorted(
      sizes.toSorted((a, b) => a - b),
      0.5,
    )! / SVG_UNITS_PER_MM
  );
};

describe('a wall chart', () => {
  /** What a text of a book is set in, in millimetres. */
  const BOOK_LETTERS = 3.5;

  it.each(HANDOUT_NAMES)('has letters on A4 that are larger than those of a book: %s', async (name) => {
    for (const page of (await draw(name)).pages) expect(usualLetters(page)).toBeGreaterThan(BOOK_LETTERS);
  });

  it.each(HANDOUT_NAMES)('grows with the paper: %s', async (name) => {
    const { pages: small } = await draw(name);
    const { pages: large } = await draw(name, { paper: 'a3' });
    expect(large).toHaveLength(small.length);
    large.forEach((page, i) => {
      expect(usualLetters(page) / usualLetters(small[i]!)).toBeGreaterThan(1.3);
    });
  });

  it('tells once how its tables are read', async () => {
    const told = (await draw('keys')).pages.flatMap(textOf).join(' ');
    expect(told.match(/with all levers down/g)).toHaveLength(1);
  });

  it('warns on each sheet that has strings to raise, as all its tables for the lever harp have', async () => {
    const warned = (await draw('keys')).pages.map((page) => textOf(page).join(' ').includes('ask first'));
    expect(warned).toEqual([false, true, true, true]);
  });

  it('names in the column of a letter what its strings are retuned to', async () => {
    // From E flat major: C flat major needs C, D, F and G lowered, which no lever does.
    const words = (await draw('keys')).pages.flatMap(textOf).map((text) => text.replace(/\s/g, ''));
    const row = words.indexOf('C♭major,A♭minor');
    expect(words.slice(row + 1, row + 8)).toEqual(['C♭', 'D♭', '–', 'F♭', 'G♭', '–', '–']);
  });
});

const textOf = (page: string): string[] =>
  descendantsNamed(treeOf(page), 'text').map(({ span }) =>
    page
      .slice(span.start, span.end)
      .replace(/<[^>]*>/g, ' ')
      .trim(),
  );

/** Pitch classes, in semitones above C, of note names with real accidentals. */
const chromas = (names: string): number[] =>
  [...names.matchAll(/([A-G])([♭♮♯])/g)].map(
    ([, letter, sign]) => Note.chroma(letter! + { '♭': 'b', '♮': '', '♯': '#' }[sign!]!)!,
  );

const sorted = (values: Iterable<number>): number[] => [...new Set(values)].sort((a, b) => a - b);

/** The sounds of the chart as tonal knows them. */
const TONAL: Readonly<Record<string, (root: string) => readonly string[]>> = {
  'Diminished seventh': (root) => Chord.get(`${root}dim7`).notes,
  'Dominant ninth': (root) => Chord.get(`${root}9`).notes,
  'Dominant seventh': (root) => Chord.get(`${root}7`).notes,
  'Minor seventh': (root) => Chord.get(`${root}m7`).notes,
  'Half-diminished seventh': (root) => Chord.get(`${root}m7b5`).notes,
  'Major sixth': (root) => Chord.get(`${root}6`).notes,
  'Whole tone': (root) => Scale.get(`${root} whole tone`).notes,
  'Major pentatonic': (root) => Scale.get(`${root} major pentatonic`).notes,
  'Minor pentatonic': (root) => Scale.get(`${root} minor pentatonic`).notes,
  Major: (root) => Scale.get(`${root} major`).notes,
  'Harmonic minor': (root) => Scale.get(`${root} harmonic minor`).notes,
};

describe('the chart of glissandi', () => {
  let page = '';

  beforeAll(async () => {
    page = (await draw('glissandi')).pages.join('');
  });

  it('stands over all of each sheet that has several sounds', async () => {
    const { pages } = await draw('glissandi');
    const lowest = pages.map((each) =>
      Math.max(...[...each.matchAll(/translate\([\d.]+ ([\d.]+)\)/g)].map(([, y]) => Number(y))),
    );
    expect(pages).toHaveLength(5);
    expect(Math.min(...lowest) / Math.max(...lowest)).toBeGreaterThan(0.8);
  });

  it('says as which note a setting gives a root that it has by another name', () => {
    const titles = [...page.matchAll(/<title>([A-G][♭♯]?)( = [A-G][♭♯]?)?: ([^<]*)<\/title>/g)];
    expect(titles.some(([, root, other]) => root === 'F♯' && other === ' = G♭')).toBe(true);
    for (const [, root, other = ` = ${root}`, setting] of titles) {
      const name = other.slice(3);
      expect(setting, root).toContain(name.length === 1 ? `${name}♮` : name);
    }
  });

  it('shows settings that sound as their headings say, and no other notes (tonal)', () => {
    let heading = '';
    let shown = 0;
    const order = [
      ...page.matchAll(
        /<title>([A-G][♭♯]?)(?: = [A-G][♭♯]?)?: ([^<]*)<\/title>|>([A-Z][a-z-]+(?: [a-z]+)?)<\/t/g,
      ),
    ];
    for (const [, root, setting, words] of order) {
      if (words !== undefined) {
        if (Object.hasOwn(TONAL, words)) heading = words;
        continue;
      }
      const wanted = TONAL[heading]!(root!.replace('♭', 'b').replace('♯', '#')).map(
        (note) => Note.chroma(note)!,
      );
      expect(wanted.length, `${root} ${heading}`).toBeGreaterThan(3);
      expect(sorted(chromas(setting!)), `${root} ${heading}`).toEqual(sorted(wanted));
      shown += 1;
    }
    expect(shown).toBeGreaterThan(80);
  });
});

describe('the chart of doubled strings', () => {
  it('pairs strings that sound one pitch, and leaves D, G and A alone (common practice)', async () => {
    const [first] = (await draw('doubled-strings')).pages;
    const pairs = textOf(first!).flatMap((text) => {
      const found = /^([A-G]) (flat|natural|sharp) and ([A-G]) (flat|natural|sharp),/.exec(text);
      return found === null ? [] : [found.slice(1)];
    });
    const SIGN: Readonly<Record<string, string>> = { flat: 'b', natural: '', sharp: '#' };
    expect(pairs).toHaveLength(9);
    for (const [a, at, b, bt] of pairs)
      expect(Note.chroma(a! + SIGN[at!]), `${a} ${at}, ${b} ${bt}`).toBe(Note.chroma(b! + SIGN[bt!]));
    expect(textOf(first!).filter((text) => text === 'one only')).toHaveLength(3);
  });

  it('shows every setting in which only four pitches sound', async () => {
    const { pages } = await draw('doubled-strings');
    const settings = pages.flatMap((page) =>
      groupsOf(page, 'handout-setting').map((group) => {
        const title = descendantsNamed(group, 'title')[0]!;
        return page.slice(title.inner.start, title.inner.end).split(': ')[1]!;
      }),
    );
    expect(settings.length).toBeGreaterThan(10);
    for (const setting of settings) expect(sorted(chromas(setting))).toHaveLength(4);
  });
});

describe('the chart of pedals and discs', () => {
  it('holds a string by one disc more for each semitone', () => {
    const letters = POSITIONS.map((position) => [
      discsHolding(position),
      pitchClassOf('G', { ...ALL_SETTINGS[0]!, G: position }),
    ]);
    for (const [discs, pitchClass] of letters)
      expect(pitchClass! - discs!).toBe(letters[0]![1]! - letters[0]![0]!);
    expect(letters.map(([discs]) => discs)).toEqual([0, 1, 2]);
  });

  it('names the pedals of each foot, and the strings without discs of every pedal harp', async () => {
    const words = (await draw('pedals')).pages.flatMap(textOf);
    expect(words).toContain('The left foot has the pedals D, C, B, from the outside inwards.');
    expect(words).toContain('The right foot has the pedals E, F, G, A, from the inside outwards.');
    // The concert harp: C1, D1 and G7 (facts of the trade; its profile names the source).
    expect(words).toContain('C1, D1, G7');
    for (const harp of Object.values(HARPS))
      if (harp.kind === 'pedal') expect(words.join(' ')).toContain(harp.name);
  });
});

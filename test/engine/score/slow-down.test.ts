import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rational, toNumber, ZERO } from '../../../engine/music/rational.ts';
import { buildClock } from '../../../engine/score/bars/clock.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import type { TempoMark } from '../../../engine/score/model/tempo.ts';
import { type SlowPassage, slowDown } from '../../../engine/score/slow-down.ts';
import { smallPart } from '../../part-builder.ts';

const mark = (at: number, quartersPerMinute: number): TempoMark => ({
  at: rational(at),
  quartersPerMinute,
  origin: 'metronome',
});

/** Four bars of four quarter notes; the file prints its marks. */
const partAt = (...tempo: readonly TempoMark[]): Score => ({
  ...smallPart({ upper: 'C4/4 | C4/4 | C4/4 | C4/4' }),
  tempo,
  texts: tempo.map(({ at, quartersPerMinute }) => ({
    at,
    bar: Math.floor(toNumber(at) / 4),
    kind: 'tempo',
    text: `♩ = ${quartersPerMinute}`,
    bold: true,
  })),
});

const passage = (from: number, until: number | null, quartersPerMinute: number): SlowPassage => ({
  from: rational(from),
  until: until === null ? null : rational(until),
  quartersPerMinute,
});

const told = ({ slowed }: Score): readonly string[] =>
  slowed.map(({ bar, kind, quartersPerMinute }) => `bar ${bar + 1}: ${kind} ${quartersPerMinute}`);

const tempoOf = ({ tempo }: Score): readonly string[] =>
  tempo.map(({ at, quartersPerMinute }) => `${toNumber(at)}: ${quartersPerMinute}`);

describe('a passage that is to be played no faster than a tempo', () => {
  it('is slowed, and the music goes on as before after it', () => {
    const slowed = slowDown(partAt(mark(0, 120)), [passage(4, 8, 90)]);
    expect(tempoOf(slowed)).toEqual(['0: 120', '4: 90', '8: 120']);
    expect(told(slowed)).toEqual(['bar 2: no-faster 90', 'bar 3: as-before 120']);
  });

  it('stays as it is where the music is slower already', () => {
    const slow = partAt(mark(0, 60));
    expect(tempoOf(slowDown(slow, [passage(4, 8, 90)]))).toEqual(tempoOf(slow));
    expect(told(slowDown(slow, [passage(4, 8, 90)]))).toEqual([]);
  });

  it('is told again where the score prints a faster tempo within it, and not where it prints its own at the end', () => {
    const slowed = slowDown(partAt(mark(0, 120), mark(4, 140), mark(8, 100)), [passage(0, 8, 90)]);
    expect(told(slowed)).toEqual(['bar 1: no-faster 90', 'bar 2: no-faster 90']);
    expect(tempoOf(slowed)).toEqual(['0: 90', '4: 90', '8: 100']);
  });

  it('goes by the slowest where passages overlap', () => {
    const slowed = slowDown(partAt(mark(0, 120)), [passage(0, 12, 100), passage(4, 8, 80)]);
    expect(tempoOf(slowed)).toEqual(['0: 100', '4: 80', '8: 100', '12: 120']);
    expect(told(slowed)).toEqual([
      'bar 1: no-faster 100',
      'bar 2: no-faster 80',
      'bar 3: no-faster 100',
      'bar 4: as-before 120',
    ]);
  });

  it('may last to the end', () => {
    const slowed = slowDown(partAt(mark(0, 120)), [passage(8, null, 90)]);
    expect(told(slowed)).toEqual(['bar 3: no-faster 90']);
  });

  it('stands over the music as words with a metronome mark', () => {
    const slowed = slowDown(partAt(mark(0, 120)), [passage(4, 8, 90)]);
    expect(slowed.texts.map(({ bar, text }) => [bar, text])).toEqual([
      [0, '♩ = 120'],
      [1, 'no faster than \uECA5 = 90'],
      [2, '\uECA5 = 120'],
    ]);
  });
});

describe('a tempo that a user set', () => {
  const inMeter = (beats: number, beatUnit: number, words?: string) => {
    const part = partAt(mark(0, 120));
    const bars = part.bars.map((bar) => ({ ...bar, meter: { beats, beatUnit } }));
    return slowDown({ ...part, bars }, [passage(4, 8, 90)], words);
  };
  const texts = ({ texts }: Score) => texts.slice(1).map(({ text }) => text);

  it.each([
    [4, 4, '\uECA5 = 90', '\uECA5 = 120'],
    [6, 8, '\uECA5\uECB7 = 60', '\uECA5\uECB7 = 80'],
    [2, 2, '\uECA3 = 45', '\uECA3 = 60'],
    [12, 16, '\uECA7\uECB7 = 120', '\uECA7\uECB7 = 160'],
  ])('is told in the note that is counted in %i/%i', (beats, beatUnit, slower, before) => {
    expect(texts(inMeter(beats, beatUnit))).toEqual([`no faster than ${slower}`, before]);
  });

  it('is told in eighths where the score’s own mark counts these', () => {
    const part = partAt(mark(0, 120));
    const bars = part.bars.map((bar) => ({ ...bar, meter: { beats: 6, beatUnit: 8 } }));
    const own = [{ ...part.texts[0]!, text: '\uECA7 = 240' }];
    expect(texts(slowDown({ ...part, bars, texts: own }, [passage(4, null, 90)]))).toEqual([
      'no faster than \uECA7 = 180',
    ]);
  });

  it('has its words in the language of the pages', () => {
    expect(texts(inMeter(4, 4, 'nicht schneller als'))[0]).toBe('nicht schneller als \uECA5 = 90');
  });
});

const anyPassage = fc
  .tuple(
    fc.nat(15),
    fc.option(fc.integer({ min: 1, max: 16 }), { nil: null }),
    fc.integer({ min: 20, max: 200 }),
  )
  .filter(([from, until]) => until === null || from < until)
  .map(([from, until, tempo]) => passage(from, until, tempo));

const anyPart = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 1, max: 15 }), fc.integer({ min: 30, max: 200 })), {
    maxLength: 3,
    selector: ([at]) => at,
  })
  .map((marks) =>
    partAt(mark(0, 100), ...marks.sort(([a], [b]) => a - b).map(([at, tempo]) => mark(at, tempo))),
  );

describe('slowing passages', () => {
  it('plays every beat at the score’s tempo or at the slowest of the passages around it', () => {
    fc.assert(
      fc.property(anyPart, fc.array(anyPassage, { maxLength: 3 }), (part, passages) => {
        const clock = buildClock(slowDown(part, passages).tempo);
        const written = buildClock(part.tempo);
        const secondsOf = (by: typeof clock, beat: number): number =>
          by(rational(beat + 1)) - by(rational(beat));
        for (let beat = 0; beat < 16; beat += 1) {
          const around = passages.filter(
            ({ from, until }) => toNumber(from) <= beat && (until === null || beat < toNumber(until)),
          );
          const slowest = Math.max(
            secondsOf(written, beat),
            ...around.map(({ quartersPerMinute }) => 60 / quartersPerMinute),
          );
          expect(secondsOf(clock, beat)).toBeCloseTo(slowest, 9);
        }
      }),
    );
  });

  it('by the same a second time changes nothing', () => {
    fc.assert(
      fc.property(anyPart, fc.array(anyPassage, { maxLength: 3 }), (part, passages) => {
        const once = slowDown(part, passages);
        const twice = slowDown(once, passages);
        expect(tempoOf(twice)).toEqual(tempoOf(once));
        expect(told(twice)).toEqual(told(once));
        expect(twice.texts).toEqual(once.texts);
      }),
    );
  });

  it('keeps a piece without passages as it is', () => {
    const part = partAt(mark(0, 100));
    expect(slowDown(part, [])).toBe(part);
    expect(part.tempo[0]!.at).toEqual(ZERO);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createMeasure } from '../../../engine/difficulty/measure.ts';
import { GRADES, type TimedChange } from '../../../engine/difficulty/model.ts';
import { findPassages } from '../../../engine/difficulty/passages.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { toNumber } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { OneTime } from '../../../engine/score/bars/one-time.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import '../../property-seed.ts';

const bars = (count: number, bar: string): string => Array.from({ length: count }, () => bar).join(' | ');

const difficultyOf = (part: SmallPart) => planPedals(smallPart(part)).summary.difficulty;

const rankOf = (part: SmallPart): number => GRADES.indexOf(difficultyOf(part).grade);

describe('how hard a part is', () => {
  it('C major in crotchets is easy, and hands and feet can play it', () => {
    const { grade, verdict, reasons } = difficultyOf({ upper: bars(4, 'C4/1 E4/1 G4/1 C5/1') });
    expect(grade).toBe('easy');
    expect(verdict).toBe('playable by hands and feet');
    expect(reasons).toEqual(['No pedal moves while the harp plays, and the hands have time.']);
  });

  it('names no passage as free of moves for those that are made in long rests', () => {
    const { reasons } = difficultyOf({ upper: 'D4+C4/1 r/3 | r/4 | r/4 | D#4+C#4/4' });
    expect(reasons).toEqual(['No pedal moves while the harp plays, and the hands have time.']);
  });

  it('does not call many changes a minute seldom, though a short part is easy', () => {
    const upper = 'C4/1 E4/1 G4/2 | C#4/1 E4/1 G4/2 | C4/1 E4/1 G4/2';
    const short = difficultyOf({ upper, quartersPerMinute: 80 });
    expect(short.grade).toBe('easy');
    expect(short.measures.changesPerMinute).toBeGreaterThan(10);
    expect(short.reasons).toEqual(['There is time for each pedal move, and the hands have time.']);
    const long = difficultyOf({ upper: `${upper} | ${bars(12, 'C4/1 E4/1 G4/2')}`, quartersPerMinute: 80 });
    expect(long.reasons).toEqual(['The pedals move seldom, and the hands have time.']);
  });

  it('grows with the tempo: C C♯ D D♯ at 40, at 120 and at 200 to the minute', () => {
    const upper = bars(4, 'C4+D4/2 C#4/2 | D#4/2 C4+D4/2');
    const ranks = [40, 120, 200].map((quartersPerMinute) => rankOf({ upper, quartersPerMinute }));
    expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    expect(ranks.at(-1)).toBeGreaterThan(ranks[0]!);
  });

  it('five notes in the left hand, twice: the feet can play it, and which hand cannot is said', () => {
    const { grade, verdict } = difficultyOf({
      upper: 'C5+E5+G5+B5/4 | r/4 | C5+E5+G5+B5/4 | r/4',
      lower: 'C3+E3+G3+B3+C4/4 | C3/4 | C3+E3+G3+B3+C4/4 | C3/4',
    });
    expect(verdict).toBe('playable by the feet; the left hand has too much in 2 bars');
    expect(grade).toBe('hard');
  });

  it('five notes on the upper staff that words give to the left hand are too much for the left', () => {
    const chord = 'C4+E4+G4+B4+C5/4';
    const score = smallPart({ upper: `${chord} | r/4 | ${chord}` });
    const left = { hand: { hand: 'left', crossing: null } } as const;
    const notes = score.notes.map((note) => ({ ...note, ...left }));
    const { verdict, measures } = planPedals({ ...score, notes }).summary.difficulty;
    expect(verdict).toBe('playable by the feet; the left hand has too much in 2 bars');
    expect(measures.barsOverloaded).toEqual({ left: 2, right: 0 });
  });

  it('eight notes on the upper staff overload no hand: the left takes the lower four', () => {
    const { verdict } = difficultyOf({ upper: 'C3+E3+G3+B3+C5+E5+G5+B5/4' });
    expect(verdict).toBe('playable by hands and feet');
  });

  it('what cannot be played hides nothing: a passage with one such bar tells how hard its moves are as well', () => {
    const upper = 'C4/1 C#4/1 D4/1 D#4/1 | D4/1 C4/1 C#4/1 C4/1 | C4+C#5/4 | C4/1 C#4/1 C4/1 C#4/1';
    const { grade, reasons, passages } = difficultyOf({ upper, quartersPerMinute: 90 });
    expect(grade).toBe(passages[0]!.grade);
    expect(grade).not.toBe('easy');
    expect(passages[0]!.playable).toBe(false);
    const [first, ...rest] = passages[0]!.reasons;
    expect(first).toContain('the strings cannot give the notes in 1 bar');
    expect(rest.join(' ')).toMatch(/pedal moves in ten seconds/);
    expect(reasons.join(' ')).toMatch(/pedal moves in ten seconds/);
  });

  it('C and C♯ at once is not playable, for want of strings, in its bar', () => {
    const { grade, playable, verdict, reasons, passages } = difficultyOf({ upper: 'C4/4 | C4+C#5/4' });
    // How hard it is otherwise is another matter.
    expect([grade, playable]).toEqual(['easy', false]);
    expect(verdict).toBe(
      'not playable as printed: the first problem is in bar 2; the strings cannot give the notes in 1 bar',
    );
    expect(reasons[0]).toBe('Not playable as printed: the strings cannot give the notes in 1 bar.');
    expect(passages.map((passage) => [passage.grade, passage.playable])).toEqual([['easy', false]]);
  });

  it('two pedals of the left foot with no time between is not playable, for want of time', () => {
    const { verdict } = difficultyOf({ upper: 'C4+D4/1:4 C#4+D#4/1:4 r/1', quartersPerMinute: 240 });
    expect(verdict).toContain('the feet have no time in 1 bar');
  });

  it('one hard passage in twelve makes a part moderate, and is named with its bars', () => {
    const hard = 'C4+D4/1 C#4+D#4/1 C4+D4/1 C#4+D#4/1';
    const easy = `${bars(8, 'E4/4')}`;
    const upper = [hard, hard, ...Array.from({ length: 12 }, () => `r/4 | ${easy}`)].join(' | ');
    const { grade, reasons, passages } = difficultyOf({ upper, quartersPerMinute: 60 });
    const worst = passages[0]!.grade;
    expect(['hard', 'very-hard']).toContain(worst);
    expect(GRADES.indexOf(grade)).toBe(GRADES.indexOf(worst) - 1);
    expect(reasons[0]).toMatch(/^1 of 13 passages is (very )?hard\.$/);
    expect(reasons[1]).toMatch(/^Bars 1–2: /);
  });

  it('the lever harp has grades of its own: F F♯ F F♯ with a hand free', () => {
    const options = { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning };
    const { difficulty } = planLevers(smallPart({ upper: bars(4, 'F4/1 r/3 | F#4/1 r/3') }), options).summary;
    expect(difficulty.measures.changes).toBeGreaterThan(0);
    expect(difficulty.reasons.join(' ')).not.toContain('pedal');
  });
});

describe('the busiest bar', () => {
  it('counts the moves of the foot that is named: the left moves C D, the right F once', () => {
    const { busiest } = planPedals(
      smallPart({ upper: 'C4+D4+F4/2 C#4/1 D#4/1 | F#4+E4/2 C4/1 D4/1', quartersPerMinute: 40 }),
    ).summary;
    const { moves } = planPedals(
      smallPart({ upper: 'C4+D4+F4/2 C#4/1 D#4/1 | F#4+E4/2 C4/1 D4/1', quartersPerMinute: 40 }),
    );
    const inBar = moves.filter(({ foot, bar }) => foot === busiest!.foot && bar === busiest!.bar);
    expect(moves.filter(({ bar }) => bar === busiest!.bar).length).toBeGreaterThan(inBar.length);
    expect(busiest!.movesInBar).toBe(inBar.length);
  });
});

describe('passages', () => {
  const anyPart = fc.array(fc.constantFrom('C4/4', 'C#4/4', 'r/4', 'E4/4'), { minLength: 1, maxLength: 40 });

  it('hold each bar with notes once, no silent bar, and at most eight bars', () => {
    fc.assert(
      fc.property(anyPart, (texts) => {
        const spans = findPassages(smallPart({ upper: texts.join(' | ') }));
        const held = spans.flatMap(({ from, until }) =>
          Array.from({ length: until - from + 1 }, (_, i) => from + i),
        );
        expect(held).toEqual(texts.flatMap((text, i) => (text === 'r/4' ? [] : [i])));
        for (const { from, until } of spans) expect(until - from).toBeLessThan(8);
      }),
    );
  });

  it('end with their movement', () => {
    const score = smallPart({ upper: bars(6, 'C4/4') });
    expect(findPassages({ ...score, movements: [4] })).toEqual([
      { from: 0, until: 3 },
      { from: 4, until: 5 },
    ]);
  });

  it('begin at a rehearsal mark', () => {
    const score = smallPart({ upper: bars(6, 'C4/4') });
    const landmarks = [{ at: score.bars[2]!.onset, bar: 2, kind: 'rehearsal' as const, text: 'A' }];
    expect(findPassages({ ...score, landmarks })).toEqual([
      { from: 0, until: 1 },
      { from: 2, until: 5 },
    ]);
  });
});

describe('what is measured', () => {
  const anyChanges = fc
    .array(
      fc.record({ side: fc.constantFrom('left' as const, 'right' as const), seconds: fc.nat({ max: 60 }) }),
      { maxLength: 30 },
    )
    .map((changes) => changes.toSorted((a, b) => a.seconds - b.seconds));

  it('follows each ending from what is played before it, not from the ending before', () => {
    const change = { side: 'left', atThePluck: false, bendsString: false, onlyAt: null } as const;
    const measuresOf = (playOrder: readonly number[], changed: readonly number[]) =>
      createMeasure({
        ...{ harp: 'pedal', secondsAt: toNumber, findings: [], omitted: new Set() },
        score: smallPart({ upper: bars(4, 'C4/4'), playOrder }),
        changes: changed.map((bar) => ({ ...change, bar, seconds: 4 * bar })),
      })([{ from: 0, until: 3 }]);
    const through = [0, 1, 2, 3];
    const withEndings = [0, 1, 0, 2, 3];
    expect(measuresOf(through, [1, 2])).toMatchObject({ mostInTenSeconds: 2, shortestSpacing: { left: 4 } });
    expect(measuresOf(withEndings, [1, 2])).toMatchObject({
      ...{ mostInTenSeconds: 1, shortestSpacing: { left: null } },
    });
    // From the bar before into the second ending it is as far as into the first.
    expect(measuresOf(through, [0, 2])).toMatchObject({ shortestSpacing: { left: 8 } });
    expect(measuresOf(withEndings, [0, 2])).toMatchObject({ shortestSpacing: { left: 4 } });
  });

  it('does not follow a change of the first time by one of the second ending', () => {
    const made = (onlyAt: OneTime | null) =>
      createMeasure({
        ...{ harp: 'lever', secondsAt: toNumber, findings: [], omitted: new Set() },
        score: smallPart({ upper: bars(3, 'C4/4'), playOrder: [0, 1, 0, 2] }),
        changes: [
          { bar: 0, seconds: 3, onlyAt },
          { bar: 2, seconds: 8, onlyAt: null },
        ].map((each) => ({ ...each, side: 'left', atThePluck: false, bendsString: false })),
      })([{ from: 0, until: 2 }]).shortestSpacing.left;
    // The second ending follows the first bar at once.
    expect(made(null)).toBe(1);
    expect(made('later')).toBe(1);
    expect(made('first')).toBeNull();
  });

  it('is what counting one by one gives', () => {
    const score = smallPart({ upper: bars(16, 'C4/4') });
    fc.assert(
      fc.property(anyChanges, (given) => {
        const changes = given.map(
          (each): TimedChange => ({
            ...each,
            bar: Math.floor(each.seconds / 4),
            atThePluck: false,
            bendsString: false,
            onlyAt: null,
          }),
        );
        const measures = createMeasure({
          harp: 'pedal',
          score,
          secondsAt: toNumber,
          changes,
          findings: [],
          omitted: new Set(),
        })([{ from: 0, until: 15 }]);
        const windows = changes.map(
          ({ seconds }) =>
            changes.filter((each) => each.seconds >= seconds && each.seconds < seconds + 10).length,
        );
        expect(measures.mostInTenSeconds).toBe(Math.max(0, ...windows));
        const gaps = changes.flatMap((one, i) =>
          changes
            .slice(i + 1)
            .flatMap((other) =>
              one.side === other.side && one.side === 'left' ? [other.seconds - one.seconds] : [],
            ),
        );
        expect(measures.shortestSpacing.left).toBe(gaps.length === 0 ? null : Math.min(...gaps));
        expect(measures.changesPerMinute).toBeCloseTo((changes.length / 64) * 60);
      }),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { add, rational, rationalKey, toNumber } from '../../../engine/music/rational.ts';
import { drawbacksOf } from '../../../engine/pedals/drawbacks.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { DEFAULT_WEIGHTS, type Weights } from '../../../engine/pedals/weights.ts';
import type { PhraseMark } from '../../../engine/score/model/between-notes.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

// Where a foot moves best once the number of moves is settled: common practice, no source.

const planOf = (part: SmallPart, weights: Partial<Weights> = {}) =>
  planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, weights: { ...DEFAULT_WEIGHTS, ...weights } });

/** “D at 3/2” for each move: the letter, and the score time in quarter notes. */
const movesOf = (part: SmallPart, weights?: Partial<Weights>): string[] =>
  planOf(part, weights).moves.map(({ letter, at }) => `${letter} at ${rationalKey(at)}`);

/** The seconds between each move and the next, whichever foot makes them. */
const spacings = (part: SmallPart, weights?: Partial<Weights>): number[] => {
  const times = planOf(part, weights).moves.map(
    ({ at }) => (toNumber(at) * 60) / (part.quartersPerMinute ?? 60),
  );
  return times.slice(1).map((time, i) => time - times[i]!);
};

describe('two moves of one foot', () => {
  const entry = { upper: 'D4+C4/1 r/3 | r/4 | D#4+C#4/4', quartersPerMinute: 140 };

  it('before an entry after rests lie a second apart, not one beat of 0.43 seconds', () => {
    expect(spacings(entry, { closeMoves: 0 })).toEqual([expect.closeTo(0.43)]);
    expect(Math.min(...spacings(entry))).toBeGreaterThanOrEqual(0.85);
  });

  it('0.3 seconds apart are spread where a rest stands a beat away', () => {
    const part = { upper: 'E4/1 F4/1 r/2 | r/3 E#4/1:2 F#4/1:2', quartersPerMinute: 100 };
    expect(Math.min(...spacings(part))).toBeGreaterThanOrEqual(1);
  });

  it('that fall in a run follow each other no closer than they must', () => {
    const part = {
      upper: 'D4+C4/1 E4/1:2 F4/1:2 G4/1:2 A4/1:2 E4/1:2 F4/1:2 | D#4+C#4/4',
      quartersPerMinute: 160,
    };
    expect(spacings(part)[0]).toBeGreaterThan(spacings(part, { closeMoves: 0 })[0]!);
  });

  it('of three before one chord are all spread', () => {
    const part = { upper: 'D4+C4+B4/1 r/3 | r/4 | r/4 | D#4+C#4+Bb4/4', quartersPerMinute: 120 };
    expect(planOf(part).moves).toHaveLength(3);
    expect(Math.min(...spacings(part))).toBeGreaterThanOrEqual(1);
  });

  it('may be as close as the weights say', () => {
    expect(spacings(entry, { comfortableSpacingSeconds: 0.3 })).toEqual([expect.closeTo(0.43)]);
  });

  it('are no nearer to each other for being of a further note: the pair is moved, not the second alone', () => {
    const part = { upper: 'D4+C4/1 r/3 | A4/1 A4/1 r/1 r/1 | D#4+C#4/4', quartersPerMinute: 100 };
    const [first, second] = movesOf(part);
    expect([first, second].map((move) => Number(move!.split(' at ')[1]) >= 4)).toEqual([true, true]);
  });
});

describe('moves of the two feet', () => {
  it('fall together: each foot has its own time', () => {
    expect(movesOf({ upper: 'D4+F4/4 | r/4 | D#4+F#4/4' })).toEqual(['D at 7', 'F at 7']);
  });
});

describe('three pedals of one foot that change in a silence of one long beat', () => {
  const part = {
    upper: 'r/1:2 Eb4+Gb4+F#4+Bb4/1:2 r/3 | F4+A4+A2+D4/1:3 E4+G4/11:3',
    meter: { beats: 2, beatUnit: 2 },
    quartersPerMinute: 52,
  };

  it('are all set there, between its beats, and none with the chord that comes after', () => {
    const times = planOf(part).moves.map(({ at }) => toNumber(at));
    expect(times).toHaveLength(3);
    expect(Math.max(...times)).toBeLessThan(4);
    expect(Math.min(...spacings(part))).toBeGreaterThan(0.5);
  });
});

describe('a move before a run', () => {
  const run = 'C4/1:4 D4/1:4 E4/1:4 F#4/1:4';

  it('is made in the rest, not within the run 0.15 seconds before its note', () => {
    expect(movesOf({ upper: `F4/1 r/1 ${run} G4/1`, quartersPerMinute: 100 })).toEqual(['F at 1']);
  });

  it('is made in a rest three seconds before it rather than within the run', () => {
    const upper =
      'F4/1 r/1 C4/1:4 D4/1:4 E4/1:4 G4/1:4 A4/1:4 G4/1:4 E4/1:4 D4/1:4 | C4/1:4 D4/1:4 E4/1:4 G4/1:4 F#4/3';
    expect(movesOf({ upper, quartersPerMinute: 90 })).toEqual(['F at 1']);
  });

  it('is made within the run rather than in a rest five seconds before, and forgotten', () => {
    const quavers = 'A4/1:2 G4/1:2 A4/1:2 G4/1:2 A4/1:2 G4/1:2 A4/1:2 G4/1:2';
    const part = { upper: `F4/4 | A4/3 r/1 | ${quavers} | ${quavers} | F#4/4`, quartersPerMinute: 96 };
    expect(movesOf(part)).toEqual(['F at 15']);
  });

  it('is made on the long note before it, where no rest stands', () => {
    expect(movesOf({ upper: `F4/1 A4/1 ${run} G4/1`, quartersPerMinute: 100 })).toEqual(['F at 1']);
  });

  it('is made inside a run only for want of anything else', () => {
    const upper = 'F4/1:4 G4/1:4 A4/1:4 F#4/1:4 G4/1 r/2';
    expect(movesOf({ upper, quartersPerMinute: 60 })).toEqual(['F at 1/4']);
  });
});

describe('a marking', () => {
  it('is not made 5.8 seconds ahead where a free beat stands nearer', () => {
    const part = { upper: 'F4/1 r/3 | r/4 | r/2 F#4/2', quartersPerMinute: 62 };
    expect(movesOf(part)).toEqual(['F at 9']);
  });

  it('far ahead in a rest is worse than one on a single note nearby', () => {
    const part = { upper: 'F4/1 r/3 | A4/1 A4/1 A4/1 A4/1 | A4/1 A4/1 F#4/2' };
    expect(movesOf(part)).toEqual(['F at 9']);
  });

  it('a second or two ahead in a rest is better than one on a chord nearby', () => {
    const part = { upper: 'F4/1 A4/1 A4/1 r/1 | C4+E4+G4/1 C4+E4+G4/1 F#4/2', quartersPerMinute: 80 };
    expect(movesOf(part)).toEqual(['F at 3']);
  });

  it('is forgotten later where the weights say so', () => {
    const part = { upper: 'F4/1 r/3 | A4/1 A4/1 A4/1 A4/1 | A4/1 A4/1 F#4/2' };
    expect(movesOf(part, { rememberedSeconds: 30, perSecondAhead: 0.1 })).toEqual(['F at 3']);
  });
});

describe('what a player is told that speaks against a move', () => {
  const nearby = { name: 'perSecondAhead', amount: 1.9 };
  const busy = { name: 'handsBusy', amount: 5 };
  const ringing = { name: 'stringRinging', amount: 0.04 };

  it('is no lead of less than two seconds, though each second has its price', () => {
    expect(drawbacksOf({ cost: [nearby, busy] }, 1.9)).toEqual([busy]);
    expect(drawbacksOf({ cost: [{ ...nearby, amount: 2 }, busy] }, 2)).toEqual([
      busy,
      { ...nearby, amount: 2 },
    ]);
  });

  it('goes by the clock, whatever a second costs', () => {
    const dear = { ...nearby, amount: 100 };
    expect(drawbacksOf({ cost: [dear] }, 1)).toEqual([]);
    expect(drawbacksOf({ cost: [dear] }, null)).toEqual([]);
  });

  it('is nothing that has all but faded', () => {
    expect(drawbacksOf({ cost: [ringing] }, 1)).toEqual([]);
  });
});

describe('a rest in which pedals are set anew', () => {
  const flats = 'Eb4+Ab4/1 Bb4+Db5/1 Gb4+Ab4/2';
  const naturals = 'F4+C5/2 A4/1 E4/1 | D5/1 F4/1 G4/2 | D5/1 C5/1 B4/2';
  const rest = { from: 4, until: 8 };
  const inRest = (moves: readonly string[], { from, until } = rest): string[] =>
    moves.flatMap((move) => {
      const [letter, at] = move.split(' at ') as [string, string];
      const [num, den = 1] = at.split('/').map(Number);
      return num! / den >= from && num! / den < until ? [letter] : [];
    });

  it('before a new key signature takes all its pedals, those too that are needed much later', () => {
    const part = {
      upper: `${flats} | r/4 | ${naturals}`,
      keyFifths: [-6, -6, 0, 0, 0],
      quartersPerMinute: 72,
    };
    expect(inRest(movesOf(part)).sort()).toEqual(['A', 'B', 'D', 'E', 'G']);
  });

  it('takes a lone pedal before a new key signature', () => {
    const upper = 'F4/4 | r/4 | C5/1 A4/1 G4/1 E4/1 | A4/1 C5/1 E4/1 A4/1 | F#4/1 A4/1 D4/2';
    const part = { upper, quartersPerMinute: 90 };
    expect(inRest(movesOf({ ...part, keyFifths: [0, 0, 1, 1, 1] }))).toEqual(['F']);
    expect(inRest(movesOf({ ...part, keyFifths: 0 }))).toEqual([]);
  });

  it('after which the music is in the written key again takes the pedals back to it, together', () => {
    const part = { upper: `${flats} | r/4 | ${naturals}`, quartersPerMinute: 60 };
    expect(inRest(movesOf(part)).sort()).toEqual(['A', 'B', 'D', 'E', 'G']);
  });

  it('takes what is needed soon after it, but not an accidental of a later phrase', () => {
    const later = 'F4+C5/2 A4/1 E4/1 | D5/1 F4/1 G4/2 | D5/1 C5/1 B4/2 | F4/1 A4/1 C#5/2';
    const part = { upper: `${flats.replace('Bb4', 'Bb4+C4')} | r/4 | ${later}`, quartersPerMinute: 60 };
    expect(inRest(movesOf(part)).sort()).toEqual(['A', 'B', 'D', 'E', 'G']);
  });

  it('is no short one within one key', () => {
    const part = { upper: `Eb4+Ab4/1 Bb4+Db5/1 Gb4+Ab4/1 r/1 | ${naturals}`, quartersPerMinute: 60 };
    expect(inRest(movesOf(part), { from: 3, until: 4 }).length).toBeLessThan(5);
  });

  it('stands before a repeat too, but not before an ending that is never reached from it', () => {
    const part = {
      upper: 'F4/4 | r/4 | C5/1 A4/1 G4/1 E4/1 | A4/1 C5/1 E4/1 A4/1 | F#4/1 A4/1 D4/2',
      keyFifths: [0, 0, 1, 1, 1],
      quartersPerMinute: 90,
    };
    expect(inRest(movesOf({ ...part, playOrder: [0, 1, 2, 3, 2, 3, 4] }))).toEqual(['F']);
    expect(inRest(movesOf({ ...part, playOrder: [0, 1, 0, 2, 3, 4] }))).toEqual([]);
  });

  it('leaves each foot its time', () => {
    const part = {
      upper: `${flats} | r/4 | ${naturals}`,
      keyFifths: [-6, -6, 0, 0, 0],
      quartersPerMinute: 200,
    };
    const { moves } = planOf(part);
    expect(moves.flatMap(({ cost }) => cost.map(({ name }) => name))).not.toContain('footTooBusy');
  });

  it('is told as the place for a move that is made after it', () => {
    const part = { upper: `${flats} | r/1:2 F4+C5/7:2 | A4/2 E4/2 | D5/1 G4/3`, keyFifths: [-6, 0, 0, 0] };
    const late = planOf({ ...part, quartersPerMinute: 240 }).moves.filter(({ cost }) =>
      cost.some(({ name }) => name === 'missedRest'),
    );
    expect(late.length).toBeGreaterThan(0);
    for (const { cost } of late) {
      expect(cost).toContainEqual({ name: 'missedRest', amount: DEFAULT_WEIGHTS.missedRest });
    }
  });
});

describe('a string whose notes are shorter than a hand could still it', () => {
  // Quavers of 0.22 s in a run, F plucked on one and F sharp two later.
  const quavers = { upper: 'F4/1:4 A4/1:4 F#4/1:4 A4/1:4 G4/2 r/1', quartersPerMinute: 69 };

  it('lets its pedal move halfway to the next note, not only at the pluck', () => {
    expect(movesOf(quavers)).toEqual(['F at 1/4']);
  });

  it('costs less with each moment that it has sounded', () => {
    const run = { upper: 'F4/1:8 A4/1:8 G4/1:8 A4/1:8 F#4/1:2 r/3', quartersPerMinute: 60 };
    const priceAt = (at: number): number => {
      const pin = { kind: 'move', letter: 'F', position: 1, at: rational(at, 8) } as const;
      const { moves } = planPedals(smallPart(run), { ...DEFAULT_PLAN_OPTIONS, pins: [pin] });
      return moves[0]!.cost.find(({ name }) => name === 'justPlucked')?.amount ?? 0;
    };
    const [first, second, third] = [1, 2, 3].map(priceAt);
    expect(first).toBeLessThan(DEFAULT_WEIGHTS.justPlucked);
    expect(second).toBeLessThan(first!);
    expect(third).toBe(0);
  });

  it('is heard to bend just after its pluck, and not when it has nearly died away', () => {
    const bendsAt = (at: number): boolean => {
      const part = { upper: 'F4/1:8 A4/1:8 G4/1:8 A4/1:8 F#4/1:2 r/3', quartersPerMinute: 80 };
      const pin = { kind: 'move', letter: 'F', position: 1, at: rational(at, 8) } as const;
      const { findings } = planPedals(smallPart(part), { ...DEFAULT_PLAN_OPTIONS, pins: [pin] });
      return findings.some(({ code }) => code === 'ringing-string-moved');
    };
    expect([1, 2].map(bendsAt)).toEqual([true, false]);
  });
});

describe('a foot that is as busy as it likes', () => {
  it('moves on the beat where its moves lie 0.8 seconds apart, rather than between the beats', () => {
    const part = {
      upper: 'F4+A4/1:2 C5/1:2 D5/1:2 C5/1:2 D5/1:2 C5/1:2 Ab4+F#4/1',
      quartersPerMinute: 75,
    };
    const { moves } = planOf(part);
    expect(moves).toHaveLength(2);
    for (const { at } of moves) expect(at.den).toBe(1);
  });
});

describe('a move while the hands play', () => {
  it('falls on a single note rather than on a chord', () => {
    const part = { upper: 'F4/1 C4+E4+G4/1 A4/1 C4+E4+G4/1 | F#4/4', quartersPerMinute: 120 };
    expect(movesOf(part)).toEqual(['F at 2']);
  });

  it('falls on the beat rather than between', () => {
    const part = { upper: 'F4/1 A4/1:2 G4/1:2 A4/1:2 G4/1:2 A4/1:2 G4/1:2 | F#4/4', quartersPerMinute: 80 };
    expect(movesOf(part)).toEqual(['F at 3']);
  });

  it('falls on the full chord of the beat rather than on the last of five fast notes before it', () => {
    const part = {
      upper: 'F4/1 F4/1:5 A4/1:5 C5/1:5 E5/1:5 A5/1:5 C4+E4+A4+C5+E5+A5/1 | F#4/3',
      meter: { beats: 3, beatUnit: 4 },
      quartersPerMinute: 144,
    };
    expect(movesOf(part)).toEqual(['F at 2']);
  });

  it('falls on the chord of the beat rather than on the last semiquaver before the next', () => {
    const upper = 'F4/1 A4+C5+E5/3:4 A4/1:4 C4+E4/1:4 A4/1:4 A4+C5+E5/1:2 F#4/1';
    expect(movesOf({ upper, quartersPerMinute: 72 })).toEqual(['F at 1']);
  });

  it('falls in compound time on the beat rather than on a semiquaver', () => {
    const part = {
      upper: 'F4/3:2 A4+C5+E5/3:4 A4/1:4 C5/1:2 | F#4/3',
      meter: { beats: 6, beatUnit: 8 },
      quartersPerMinute: 80,
    };
    expect(movesOf(part)).toEqual(['F at 3/2']);
  });

  it('falls in a run on one of its beats, be it a chord, rather than between', () => {
    const group = 'A2+A3+C4+E4+A4+C5/1:5 D4/1:5 E4/1:5 A4/1:5 C5/1:5';
    const run = `${group} ${group} ${group} ${group}`;
    const part = {
      upper: `F4/1:5 ${group.slice(group.indexOf(' '))} ${group} ${group} ${group} | ${run} | F#4/4`,
      quartersPerMinute: 144,
    };
    for (const move of planOf(part).moves) expect(move.at.den).toBe(1);
  });

  it('falls on a note of a run, not between two of its notes', () => {
    const bar = 'C4+E4+A4+C5/1:2 G4/1:2 C4+E4+A4+C5/1:2 G4/1:2 C4+E4+A4+C5/1:2 G4/1:2 C4+E4+A4+C5/1:2 G4/1:2';
    const part = {
      upper: `F4/1:2 G4/1:2 ${bar.slice(bar.indexOf('G4/1:2 ') + 7)} | F#4/4`,
      quartersPerMinute: 100,
    };
    expect(planOf(part).moves.map(({ at }) => [1, 2].includes(at.den))).toEqual([true]);
  });

  it('falls half a second before its note rather than a tenth', () => {
    const part = { upper: 'F4/1 A4/1:4 G4/1:4 A4/1:4 G4/1:4 F#4/1', quartersPerMinute: 120 };
    expect(movesOf(part)).toEqual(['F at 1']);
  });

  it('falls in the short rest before its note rather than at its pluck', () => {
    expect(movesOf({ upper: 'F4/1:2 r/1:2 F#4/3', quartersPerMinute: 60 })).toEqual(['F at 1/2']);
  });

  it('does not fall between the beats while its own string is held', () => {
    expect(movesOf({ upper: 'F4/1 F#4/3' })).toEqual(['F at 1']);
  });
});

describe('a move beside a chord', () => {
  it('is made while the chord is held, not as six strings are plucked', () => {
    expect(movesOf({ upper: 'F4/1 C4+E4+A4+C5+E5+A5/1 F#4/2' })).toEqual(['F at 3/2']);
  });

  it('is made while it is held on by a tie, which is no rest', () => {
    const part = { upper: 'F4/1 A4/1 ~A4/1 F#4/1' };
    expect(movesOf(part)).toEqual(['F at 2']);
    expect(planOf(part).moves[0]!.cost.map(({ name }) => name)).toContain('handsHolding');
  });

  it('is made in the rest of one eighth beside it, in 6/8 too', () => {
    const part = {
      upper: 'F4/1:2 A4+C5+E5/1:2 r/1:2 A4+C5+E5/1:2 F#4/1',
      meter: { beats: 6, beatUnit: 8 },
      quartersPerMinute: 90,
    };
    expect(movesOf(part)).toEqual(['F at 1']);
  });

  it('is made in the rest beside it where the rest falls between all beats', () => {
    const part = smallPart({
      upper: 'F4/1:2 A4+C5+E5/1:4 r/1:4 A4+C5+E5/1:2 F#4/1:2 r/2',
      quartersPerMinute: 110,
    });
    const onset = rational(3, 4);
    const rest = { id: 'r', span: { start: 0, end: 0 }, bar: 0, staff: 1, voice: '1', onset };
    const { moves } = planPedals({ ...part, rests: [{ ...rest, duration: rational(1, 4) }] });
    expect(moves.map(({ at }) => rationalKey(at))).toEqual(['3/4']);
    expect(planPedals(part).moves.map(({ at }) => rationalKey(at))).not.toEqual(['3/4']);
  });
});

describe('a move that can only be made next to its note', () => {
  it('is made with it, on the beat, rather than a twentieth of a second before, between the beats', () => {
    const upper = 'F4/1:2 Eb4/1:4 A4/1:8 G4/1:8 A4/1:8 G4/1:8 A4/1:8 G4/1:8 F#4+E4/1:2';
    expect(movesOf({ upper, quartersPerMinute: 140 })).toEqual(['F at 1/2', 'E at 3/2']);
  });
});

describe('the end of a phrase', () => {
  const line = {
    upper: 'F4/1 A4/1 G4/1 A4/1 | G4/1 A4/1 G4/1 A4/1 | G4/1 A4/1 F#4/2',
    quartersPerMinute: 120,
  };
  const mark = (kind: PhraseMark['kind'], start: number, last: number): PhraseMark => ({
    kind,
    start: rational(start),
    last: rational(last),
    end: rational(last + 1),
  });
  const moveWith = (...phrases: readonly PhraseMark[]): readonly string[] =>
    planPedals({ ...smallPart(line), phrases }).moves.map(
      ({ letter, at }) => `${letter} at ${rationalKey(at)}`,
    );

  it('draws a move from the middle of the next phrase, which is nearer', () => {
    expect(moveWith()).toEqual(['F at 9']);
    expect(moveWith(mark('slur', 4, 6))).toEqual(['F at 7']);
  });

  it('is at a fermata, a breath mark and a caesura too', () => {
    for (const kind of ['fermata', 'breath', 'caesura'] as const) {
      expect(moveWith(mark(kind, 6, 6))).toEqual(['F at 7']);
    }
  });

  it('is none while a slur of the other hand goes on', () => {
    expect(moveWith(mark('slur', 4, 6), mark('slur', 5, 9))).toEqual(['F at 9']);
  });

  it('is none where the next slur begins on the last note', () => {
    expect(moveWith(mark('slur', 4, 6), mark('slur', 6, 9))).toEqual(['F at 9']);
  });

  it('is not that of a pair of notes', () => {
    expect(moveWith(mark('slur', 5, 6))).toEqual(['F at 9']);
  });

  it('is none inside a run, whose groups are slurred', () => {
    const run = { ...line, upper: 'F4/1 A4/1:4 G4/1:4 A4/1:4 G4/1:4 A4/1:4 G4/1:4 A4/1:4 G4/1:4 F#4/1' };
    const groups = [0, 1].map((beat) => mark('slur', 1 + beat, 1 + beat));
    const slurred = groups.map((each) => ({
      ...each,
      last: add(each.start, rational(3, 4)),
      end: add(each.start, rational(1)),
    }));
    const [without, withSlurs] = [[], slurred].map(
      (phrases) => planPedals({ ...smallPart(run), phrases }).moves,
    );
    expect(withSlurs!.map(({ at }) => at)).toEqual(without!.map(({ at }) => at));
  });

  it('is not on the chord that begins the next', () => {
    const upper = 'F4/1 A4/1 G4/1 A4/1 | G4/1 A4/1 G4/1 A4+C5+E5/1 | G4/1 A4/1 F#4/2';
    const score = smallPart({ ...line, upper });
    const moves = [[], [mark('slur', 4, 6)]].map((phrases) => planPedals({ ...score, phrases }).moves);
    expect(moves[1]!.map(({ at }) => at)).toEqual(moves[0]!.map(({ at }) => at));
  });

  it('is not worth a marking that is forgotten', () => {
    const slow = { ...smallPart({ ...line, quartersPerMinute: 30 }), phrases: [mark('slur', 0, 2)] };
    const withoutMarks = planPedals({ ...slow, phrases: [] }).moves;
    expect(planPedals(slow).moves.map(({ at }) => at)).toEqual(withoutMarks.map(({ at }) => at));
  });

  it('costs no further move: only where it is made is another', () => {
    const part = { upper: 'F4/1 G4/1 A4/1 F#4/1 | G4/1 F4/1 A4/1 F#4/1', quartersPerMinute: 90 };
    const slurred = { ...smallPart(part), phrases: [mark('slur', 0, 2), mark('slur', 3, 6)] };
    expect(planPedals(slurred).moves).toHaveLength(planPedals(smallPart(part)).moves.length);
  });
});

describe('what the report says of a plan', () => {
  it('names want of time, closeness, a late move and one inside a run, each with its price', () => {
    const part = {
      upper:
        'D4+C4/1:4 D#4+C#4/1:4 D4/1:4 Cb4/1:4 B4/1 F4+G4/1 F#4+Gb4/1 | D4+C4/1:8 D#4/1:8 C#4/1:8 Db4/1:8 r/2',
      quartersPerMinute: 130,
    };
    const { moves } = planOf(part);
    const names = new Set(moves.flatMap(({ cost }) => cost.map(({ name }) => name)));
    expect([...names]).toEqual(expect.arrayContaining(['closeMoves', 'footTooBusy', 'noLead', 'insideRun']));
    const tooSoon = moves.filter(({ cost }) => cost.some(({ name }) => name === 'footTooBusy'));
    for (const { cost } of tooSoon) {
      expect(cost).toContainEqual({ name: 'footTooBusy', amount: DEFAULT_WEIGHTS.footTooBusy });
    }
  });

  it('charges comfort far less than a move', () => {
    const most = planOf({ upper: 'F4/1:4 F#4/1:4 F4/1:4 F#4/1:4 G4/1 r/2' }).moves.map(({ cost }) =>
      cost.reduce((sum, { amount }) => sum + amount, 0),
    );
    for (const amount of most) expect(2000 * amount).toBeLessThan(DEFAULT_WEIGHTS.move);
  });
});

describe('a change among notes that divide the beat in three', () => {
  const triplet = 'F4+A4+C5+E5/1:3 D4+G4+C5/1:3 F4+A4+E5/1:3';
  const part = {
    upper: `B4+D5/1 ${triplet} ${triplet} ${triplet} | ${triplet} ${triplet} ${triplet} F4+A4+C5+E5/1:3 D4+G4+C5/1:3 F4+A4+Bb4/1:3`,
    quartersPerMinute: 50,
  };

  it('stands at a note or a beat, not at a half of the beat that nobody counts', () => {
    const [move] = planOf(part).moves;
    expect(move!.letter).toBe('B');
    expect([1, 3]).toContain(move!.at.den);
  });

  it('would stand at half a beat, where no note is plucked, if that cost no more than among quavers', () => {
    const [move] = planOf(part, { betweenTupletNotes: DEFAULT_WEIGHTS.betweenBeats }).moves;
    expect([2, 4]).toContain(move!.at.den);
  });
});

import { describe, expect, it } from 'vitest';
import type { Pin } from '../../../engine/harp/pin.ts';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { rational, rationalKey } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { isInPause, pausesBefore } from '../../../engine/time/pauses.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';
import { bar, meiScore, notes, read } from '../score/mei/mei-builder.ts';

// That a player takes the time that is needed between two movements: common practice, no source.

/** The part, with movements that begin behind final bar lines at these bars (indices). */
const movementsAt = (bars: readonly number[], part: SmallPart, more: Partial<Score> = {}): Score => ({
  ...smallPart(part),
  movements: bars,
  pauses: bars,
  ...more,
});

const told = (score: Score, options: Partial<PlanOptions> = {}) => {
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options });
  return {
    plan,
    setting: formatSetting(plan.initial),
    moves: plan.moves.map(
      (move) =>
        `${move.letter} ${move.to} ${isInPause(score, move) ? 'before' : 'at'} ${rationalKey(move.at)}`,
    ),
    codes: plan.findings.map(({ code }) => code),
  };
};

const CROWDED = { upper: 'D4+C4+B3/4 | Db4+C#4+Bb3/1 r/3' };

describe('between two movements', () => {
  it('all pedals of a foot are moved, where going on at once would bend what sounds', () => {
    const { moves, codes, plan } = told(movementsAt([1], CROWDED));
    expect(moves.toSorted()).toEqual(['B -1 before 4', 'C 1 before 4', 'D -1 before 4']);
    expect(codes).toEqual([]);
    expect(plan.moves.flatMap(({ cost }) => cost)).toEqual([]);
    expect(told(smallPart(CROWDED)).codes).toContain('ringing-string-moved');
  });

  it('a pedal is set for its first note however late that comes, and not while the movement before ends', () => {
    const { moves } = told(movementsAt([2], { upper: 'F4/4 | r/4 | G4/4 | r/4 | r/4 | r/4 | F#4/4' }));
    expect(moves).toEqual(['F 1 before 8']);
  });

  it('of two the later is taken, for a pedal that the movement between them leaves alone', () => {
    expect(told(movementsAt([1, 2], { upper: 'F4/4 | G4/4 | F#4/4' })).moves).toEqual(['F 1 before 8']);
  });

  it('moves count as moves, and as none that the feet make in a hurry', () => {
    const { plan } = told(movementsAt([1], CROWDED));
    expect(plan.summary.moves).toBe(3);
    expect(plan.summary.busiest).toBeNull();
    expect(plan.summary.difficulty.measures.changes).toBe(0);
  });

  it('there is no pause where a note is held into the second', () => {
    const held = movementsAt([1], { upper: 'C4/4 | ~C4/1 C#4/3' });
    expect(pausesBefore(held).size).toBe(0);
  });

  it('a movement begins behind a final bar line with a new tempo, though bars are counted on, but not behind “Fine”', () => {
    const pausesIn = (marks: string, words = 'Vivace'): number => {
      const measure = (more: object) => bar({ upper: notes('c4', 1), ...more });
      const tempo = `<tempo tstamp="1" staff="1">${words}</tempo>`;
      const ending = measure({ marks, attributes: 'right="end"' });
      return pausesBefore(read(meiScore(measure({}) + ending + measure({ marks: tempo })))).size;
    };
    expect(pausesIn('')).toBe(1);
    expect(pausesIn('<dir tstamp="1" staff="1">Fine</dir>')).toBe(0);
    expect(pausesIn('', 'rit.')).toBe(0);
  });

  it('there is no pause behind an order to go on, by words or by MEI’s sign in whatever words', () => {
    const stopsBehind = (marks: string): boolean => {
      const measure = (more: object) => bar({ upper: notes('c4', 1), ...more });
      const text = meiScore(measure({}) + measure({ marks, attributes: 'right="end"' }) + measure({}));
      return pausesBefore(read(text.replace('<measure n="3"', '<measure n="1"'))).has(2);
    };
    const words = (text: string) => stopsBehind(`<dir tstamp="3" staff="1" place="above">${text}</dir>`);
    expect(['attacca', 'Attacca subito', 'segue', 'enchaînez'].filter(words)).toEqual([]);
    expect(['a tempo', 'attaccato'].filter(words)).toEqual(['a tempo', 'attaccato']);
    const signs = ['<attacca tstamp="4"/>', '<attacca tstamp="4">gleich weiter</attacca>'];
    expect(signs.filter(stopsBehind)).toEqual([]);
    expect(stopsBehind('<dir tstamp="4" staff="1" place="above">gleich weiter</dir>')).toBe(true);
  });

  it('a change fixed for the first beat is made there, with as many more as are fixed', () => {
    const fixed = ['C', 'D', 'B'] as const;
    const pins = fixed.map((letter): Pin => ({ kind: 'move', letter, position: 0, at: rational(4) }));
    const score = movementsAt([1], { upper: 'Db4+C#4+Bb3/4 | D4+C4+B3/1 r/3' });
    const { moves, codes } = told(score, { pins });
    expect(moves.toSorted()).toEqual(['B 0 before 4', 'C 0 before 4', 'D 0 before 4']);
    expect(codes).toEqual([]);
  });

  it('a repeat of the second goes on at once', () => {
    const part = { upper: 'D4+C4+B3/4 | Db4+C#4+Bb3/4 | D4+C4+B3/4', playOrder: [0, 1, 2, 1, 2] };
    expect(told(movementsAt([1], part)).codes).toContain('ringing-string-moved');
    expect(told(movementsAt([1, 2], { ...part, playOrder: [0, 1, 2] })).codes).toEqual([]);
  });

  it('is time for any number of levers', () => {
    const score = movementsAt([1], {
      upper: 'C4+F4+C5+F5+C6+F6/4 | C#4+F#4+C#5+F#5+C#6+F#6/1 r/3',
    });
    const { moves, findings } = planLevers(score, DEFAULT_LEVER_OPTIONS);
    expect(moves.map(({ string, alter }) => pitchName({ ...string, alter })).toSorted()).toEqual([
      'C♯4',
      'C♯5',
      'C♯6',
      'F♯4',
      'F♯5',
      'F♯6',
    ]);
    expect(moves.every((move) => isInPause(score, move))).toBe(true);
    expect(findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  });
});

describe('markings at the beginning of a later movement', () => {
  it('are in time for its first notes, whatever their number', () => {
    const score = movementsAt([1], CROWDED);
    const markings = printPlan(score, planPedals(score));
    const proved = (at: Score) => proofreadScore({ ...at, markings }).findings.map(({ code }) => code);
    expect(proved(score)).toEqual([]);
    expect(proved({ ...score, pauses: [] })).toContain('change-too-quick');
  });
});

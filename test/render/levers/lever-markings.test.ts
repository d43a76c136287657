import { describe, expect, it } from 'vitest';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { planPart } from '../../../engine/plan-part.ts';
import { completeEngraving } from '../../../render/engraving-options.ts';
import { chooseLeverMarkings, type LeverMarking } from '../../../render/levers/lever-markings.ts';
import { leverName } from '../../../render/levers/lever-words.ts';
import { NOTES } from '../../../render/looks/levers/notes.ts';
import { isDrawn, markingsFor } from '../../../render/markings/printed-markings.ts';
import { markContentOf } from '../../../render/source/insertion/mark-content.ts';
import { describeLeverMarking } from '../../../render/spoken/describe-levers.ts';
import { leverPlanFor, type SmallLeverPlan } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';

const TUNE = smallPart({ upper: 'F4/2 G4/2 | F#4/1 G4/1 r/2 | r/4', lower: 'C3/4 | C3/2 C3/2 | r/4' });

const printed = (plan: SmallLeverPlan, look: 'names' | 'notes' = 'names'): LeverMarking[] => {
  const harp = leverPlanFor(TUNE, plan);
  return chooseLeverMarkings(TUNE, harp.plan, harp.profile, { leverLook: look, changeWords: false });
};

const inWords = (plan: SmallLeverPlan): string[] =>
  printed(plan).map((marking) => describeLeverMarking(marking));

describe('before the first note', () => {
  it('the player reads how the strings are tuned, and which levers are up', () => {
    expect(inWords({ up: 'A3 A4' })).toEqual(['Tuning E♭ major. Levers up: A♮3, A♮4']);
    expect(inWords({})).toEqual(['Tuning E♭ major. All levers down']);
  });

  it('a letter of which every lever is up is told in one word, after the single strings', () => {
    expect(inWords({ up: 'F2 F3 F4 F5 F6 C4' })).toEqual(['Tuning E♭ major. Levers up: C♯4, all F♯']);
  });

  it('a letter with one lever down is told string by string', () => {
    expect(inWords({ up: 'F2 F3 F4 F5' })).toEqual(['Tuning E♭ major. Levers up: F♯2, F♯3, F♯4, F♯5']);
  });

  it('a string without a lever does not keep its letter from being told in one word', () => {
    const { plan, profile } = leverPlanFor(TUNE, { up: 'F2 F3 F4 F5' });
    const own = { ...profile, fixed: [{ letter: 'F', octave: 6 } as const] };
    const [start] = chooseLeverMarkings(TUNE, plan, own, { leverLook: 'names', changeWords: false });
    expect(describeLeverMarking(start!)).toBe('Tuning E♭ major. Levers up: all F♯');
  });

  it('a string raised from a sharp is a double sharp', () => {
    expect(inWords({ tuning: tuneToKey(2), up: 'F4' })).toEqual(['Tuning D major. Levers up: F𝄪4']);
  });

  it('a tuning of no key is told by its seven letters', () => {
    const letters = { ...tuneToKey(-3).letters, F: 1 } as const;
    expect(inWords({ tuning: { letters, exceptions: [] } })[0]).toMatch(/^Tuning C D E♭ F♯ G A♭ B♭\./);
  });
});

describe('a change', () => {
  it('stands at its moment by letter, accidental and octave', () => {
    const [, change] = printed({ moves: ['1.3 F#4'] });
    expect(change).toMatchObject({ kind: 'lever-change', bar: 0, at: { num: 2, den: 1 } });
    expect(describeLeverMarking(change!)).toBe('Lever change F♯4');
  });

  it('to natural bears its sign', () => {
    expect(leverName({ string: { letter: 'F', octave: 4 }, alter: 0 })).toBe('F♮4');
  });

  it('of two hands at one moment is one marking', () => {
    expect(inWords({ moves: ['1.3 F#4 C#4'] })[1]).toBe('Lever change F♯4 and C♯4');
  });
});

describe('a change shown as a note', () => {
  it('stands before the note that begins at its moment', () => {
    const g = TUNE.notes.find(({ pitch }) => pitch.letter === 'G')!;
    expect(printed({ moves: ['1.3 F#4'] }, 'notes')[1]).toMatchObject({
      kind: 'lever-notes',
      changes: [{ host: g.id, string: { letter: 'F', octave: 4 } }],
    });
  });

  it('stands on the other staff where nothing begins on its own', () => {
    const low = TUNE.notes.find(({ bar, staff, onset }) => bar === 1 && staff === 2 && onset.num === 6)!;
    expect(printed({ moves: ['2.3 F4'] }, 'notes')[1]).toMatchObject({ changes: [{ host: low.id }] });
  });

  it('is told by name where nothing begins at its moment', () => {
    expect(printed({ moves: ['1.2 F#4'] }, 'notes')[1]!.kind).toBe('lever-change');
    expect(printed({ moves: ['3.1 F#4'] }, 'notes')[1]!.kind).toBe('lever-change');
  });
});

describe('a change for the repeat alone', () => {
  const score = smallPart({
    upper: 'F4/4 | C4/4 | D4/4 | r/1 F4/3 | D4/1 D4/1 D4/1 D4/1 | F#4/4',
    playOrder: [0, 1, 2, 3, 4, 5, 1, 2, 3, 4, 5],
  });
  const harp = planPart(score, { levers: {} });
  const changesIn = (leverLook: 'names' | 'notes') =>
    markingsFor(score, harp, completeEngraving({ leverLook }, 'lever')).slice(1);

  it('is told with its time, and not for the first time', () => {
    expect(changesIn('names').map((each) => describeLeverMarking(each as LeverMarking))).toEqual([
      'Lever change 2nd time F♮4',
      'Lever change F♯4',
    ]);
  });

  it('stands in brackets in a file, as that of a pedal', () => {
    expect(changesIn('names').map((each) => markContentOf(each, 'both'))).toMatchObject([
      { lines: ['(F♮4)'] },
      { lines: ['F♯4'] },
    ]);
  });

  it('is told by name among small notes, which cannot say it', () => {
    expect(changesIn('notes').map(isDrawn)).toEqual([true, false]);
  });

  it('leaves a table before it that holds for the first time alone', () => {
    const { plan, profile } = leverPlanFor(score, { moves: ['2.1 C#4', '4.1 F4', '5.1 F#4'] });
    const moves = plan.moves.map((move) => ({ ...move, restores: move.bar === 3 }));
    const look = { leverLook: 'names', changeWords: false } as const;
    const tables = chooseLeverMarkings(score, { ...plan, moves }, profile, look, [2, 4]).filter(
      ({ kind }) => kind === 'levers',
    );
    expect(tables.map((each) => describeLeverMarking(each))).toEqual([
      'Tuning E♭ major. All levers down',
      'Levers up: C♯4, 1st time',
      'Levers up: C♯4',
    ]);
  });
});

describe('a change in a strain that is repeated', () => {
  const tune = (upper: string) => smallPart({ upper, playOrder: [0, 1, 0, 1, 2] });
  const told = (upper: string, { tables = [], ...plan }: SmallLeverPlan & { tables?: readonly number[] }) => {
    const harp = leverPlanFor(tune(upper), plan);
    const look = { leverLook: 'names', changeWords: false } as const;
    return chooseLeverMarkings(tune(upper), harp.plan, harp.profile, look, tables)
      .filter(({ kind }) => kind === 'lever-change')
      .map((each) => describeLeverMarking(each));
  };
  const SET_BACK = { moves: ['1.3 F#4', '2.3 F4'] };

  it('that sets back for the return alone is told with the first time', () => {
    expect(told('F4/2 F#4/2 | F#4/2 G4/2 | G4/4', SET_BACK)).toEqual([
      'Lever change F♯4',
      'Lever change 1st time F♮4',
    ]);
  });

  it('is told each time where the change after it would move nothing whenever it is met', () => {
    const score = smallPart({ upper: 'F4/2 F#4/2 | G4/4 | r/4 | F4/4', playOrder: [0, 1, 2, 0, 1, 3] });
    const { plan, profile } = leverPlanFor(score, { moves: ['2.1 F4', '1.3 F#4', '4.1 F4'] });
    const look = { leverLook: 'names', changeWords: false } as const;
    const told = chooseLeverMarkings(score, plan, profile, look).map((each) => describeLeverMarking(each));
    expect(told.slice(1)).toEqual(['Lever change F♯4', 'Lever change F♮4', 'Lever change F♮4']);
  });

  it('leaves out of a table over the second ending what the first alone changes', () => {
    const score = smallPart({ upper: 'G4/2 C4/2 | C#4/4 | C4/4', playOrder: [0, 1, 0, 2] });
    const { plan, profile } = leverPlanFor(score, { moves: ['1.3 C4', '2.1 C#4'] });
    const look = { leverLook: 'names', changeWords: false } as const;
    const [, table] = chooseLeverMarkings(score, plan, profile, look, [2]).filter(
      ({ kind }) => kind === 'levers',
    );
    expect(describeLeverMarking(table!)).toBe('All levers down');
  });

  it('is told each time where a note of its string is played behind it, or a table tells it', () => {
    const always = ['Lever change F♯4', 'Lever change F♮4'];
    expect(told('F4/2 F#4/2 | F#4/2 G4/2 | F4/4', SET_BACK)).toEqual(always);
    expect(told('F4/2 F#4/2 | F#4/2 G4/2 | G4/4', { ...SET_BACK, tables: [2] })).toEqual(always);
  });

  it('that only what follows needs is told with the last time', () => {
    expect(told('F4/2 G4/2 | G4/4 | F#4/4', { moves: ['1.1 F4', '2.3 F#4'] })[1]).toBe(
      'Lever change 2nd time F♯4',
    );
  });
});

describe('a change that would be wrong at other times of playing', () => {
  const score = smallPart({ upper: 'D5/1 r/1 r/1 r/1 | D#5/1 r/3 | D5/1 r/3', playOrder: [0, 1, 0, 2] });
  const harp = planPart(score, { levers: { tuning: tuneToKey(0) } });
  if (harp.kind !== 'lever') throw new Error('planned for levers');
  const changesIn = () =>
    chooseLeverMarkings(score, harp.plan, harp.profile, {
      leverLook: 'names',
      changeWords: false,
    }).slice(1);

  it('is told by name with its time, also where changes are small notes', () => {
    expect(describeLeverMarking(changesIn()[0]!)).toContain('1st time D♯5');
    const [move] = harp.plan.moves;
    const kindOf = (onlyAt: 'first' | null) => NOTES.mark([{ ...move!, onlyAt }], 'm', () => 'host').kind;
    expect([kindOf('first'), kindOf(null)]).toEqual(['lever-change', 'lever-notes']);
  });

  it('is written into a file with its time, one that others would only not need without', () => {
    const written = changesIn().map((marking) => markContentOf(marking, 'both'));
    expect(written).toEqual([
      { kind: 'words', lines: ['1st time: D♯5'] },
      { kind: 'words', lines: ['D♮5'] },
    ]);
  });
});

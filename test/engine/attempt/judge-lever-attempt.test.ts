import { describe, expect, it } from 'vitest';
import { judgeLeverAttempt } from '../../../engine/attempt/judge-lever-attempt.ts';
import type { JudgedChange } from '../../../engine/attempt/model.ts';
import type { LeverAt } from '../../../engine/harp/lever-name.ts';
import { nameLever } from '../../../engine/harp/lever-name.ts';
import type { LeverMove } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { formatBeat } from '../../../engine/words/format-beat.ts';
import { leverPart } from '../proof/levers/lever-part.ts';

/** In E flat: F♯4 is wanted in bar 2, F♮4 again in bar 3; D is natural in this key. */
const PART = { upper: 'A4/1 F4/1 r/2 | F#4/1 G4/1 r/2 | r/2 F4/1 G4/1', keyFifths: -3 };
const TABLE = [1, 1, 'Tuning E♭ major. Levers up: A♮4'] as const;
const UP = [1, 3, 'F♯4'] as const;
const DOWN = [2, 3, 'F♮4'] as const;

type Words = Parameters<typeof leverPart>[1];

const judge = (...words: readonly Words[]) =>
  judgeLeverAttempt(leverPart(PART, ...words), DEFAULT_LEVER_OPTIONS);

const names = (stated: readonly LeverAt[]): string =>
  stated.map(({ string, alter }) => nameLever(string, alter)).join(' ');

const told = ({ kind, stated, bar, beat, verdict }: JudgedChange<LeverAt>): string =>
  `${kind} ${names(stated)} in ${bar + 1}.${formatBeat(beat)}: ${verdict}`;

const notRight = (changes: readonly JudgedChange<LeverAt>[]) =>
  changes.filter(({ verdict }) => verdict !== 'right');

const heard = ({ sounds }: JudgedChange): readonly string[] =>
  sounds.map(({ pitch, instead }) => `${pitchName(pitch)} as ${pitchName(instead!)}`);

describe('an attempt at the levers of a part', () => {
  it('has full points where every note finds its lever', () => {
    const { changes, points } = judge(TABLE, UP, DOWN);
    expect(changes.map(told)).toEqual([
      'opening A♮4 in 1.1: right',
      'change F♯4 in 1.3: right',
      'change F♮4 in 2.3: right',
    ]);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it('misses a change for a repeat where the plan has it, before the sign', () => {
    const repeated = { ...PART, upper: 'A4/1 F4/1 r/2 | F#4/1 G4/1 r/2', playOrder: [0, 1, 0, 1] };
    const { changes } = judgeLeverAttempt(leverPart(repeated, TABLE, UP), DEFAULT_LEVER_OPTIONS);
    const [lacking, ...others] = notRight(changes);
    expect(others).toEqual([]);
    expect(told(lacking!)).toBe('change F♮4 in 2.4: missing');
    expect(heard(lacking!)).toEqual(['F4 as F♯4']);
  });

  it.each([
    ['without octaves', [TABLE, [1, 4, 'F♯'], [2, 3, 'F♮']]],
    ['by where the lever goes', [TABLE, [1, 3, 'raise F'], [2, 4, 'F lever down']]],
    ['in German', [TABLE, [1, 3, 'Klappe F hoch'], [2, 3, 'F runter']]],
    ['with all that is said again', [TABLE, UP, [2, 1, 'Levers up: F♯4, A♮4'], DOWN]],
  ] satisfies [string, Words[]][])('is as right %s', (_, words) => {
    const { changes, points } = judge(...words);
    expect(notRight(changes).map(told)).toEqual([]);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it('tells what sounds instead of the note where the wrong string is named, and what to write', () => {
    const [wrong, ...others] = notRight(judge(TABLE, [1, 3, 'G♯4'], DOWN).changes);
    expect(others).toEqual([]);
    expect(told(wrong!)).toBe('change G♯4 in 1.3: wrong');
    expect(wrong!.correction).toEqual({
      kind: 'write',
      stated: [{ string: { letter: 'F', octave: 4 }, alter: 1 }],
    });
    expect(heard(wrong!)).toContain('F♯4 as F4');
  });

  it('tells of a name that no lever of the harp gives', () => {
    const [wrong, ...others] = notRight(judge(TABLE, [1, 3, 'F♭4'], DOWN).changes);
    expect(others).toEqual([]);
    expect(told(wrong!)).toBe('change F♭4 in 1.3: wrong');
    expect(wrong!.correction).toMatchObject({ kind: 'write', stated: [{ alter: 1 }] });
  });

  it('tells what a name contradicts that stands where another text says otherwise', () => {
    const bothWays: Words[] = [TABLE, UP, DOWN, [2, 3, 'F♯4']];
    const [wrong, ...others] = notRight(judge(...bothWays).changes);
    expect(others).toEqual([]);
    expect(told(wrong!)).toBe('change F♯4 in 2.3: wrong');
    expect(wrong!.correction).toEqual({
      kind: 'strike',
      against: [{ string: { letter: 'F', octave: 4 }, alter: 0 }],
    });
  });

  it('tells where a change belongs that comes after its note', () => {
    const [wrong, ...others] = notRight(judge(TABLE, [2, 2, 'F♯4'], DOWN).changes);
    expect(others).toEqual([]);
    expect(wrong).toMatchObject({ verdict: 'wrong', correction: { kind: 'move', to: { bar: 0 } } });
    expect(heard(wrong!)).toEqual(['F♯4 as F4']);
  });

  it('says that no hand is free where both play, and where one is', () => {
    const part = { upper: 'F4/1 r/2 G4/1 | F#4/1 r/3', lower: 'r/3 G2/1 | A2/1 r/3', keyFifths: 0 };
    const score = leverPart(part, [1, 1, 'Tuning C major. All levers down'], [2, 1, 'F♯4']);
    const { changes } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    expect(notRight(changes)).toMatchObject([
      { verdict: 'wrong', tooQuick: true, correction: { kind: 'move', to: { bar: 0 } } },
    ]);
  });

  it('tells what is missing, and what sounds until then', () => {
    const { changes, points } = judge(TABLE, UP);
    const [missing, ...others] = notRight(changes);
    expect(others).toEqual([]);
    expect(missing).toMatchObject({ kind: 'change', verdict: 'missing' });
    expect(names(missing!.stated)).toBe('F♮4');
    expect(heard(missing!)).toEqual(['F4 as F♯4']);
    expect(points).toEqual({ given: 4, most: 6 });
  });

  it('judges what is told before the first note as one thing', () => {
    const { changes } = judge([1, 1, 'Tuning E♭ major. Levers up: E♮4'], UP, DOWN);
    const [opening, ...others] = notRight(changes);
    expect(others).toEqual([]);
    expect(told(opening!)).toBe('opening E♮4 in 1.1: wrong');
    expect(names(opening!.correction!.kind === 'write' ? opening!.correction!.stated : [])).toContain('A♮4');
    expect(heard(opening!)).toContain('A4 as A♭4');
  });

  it('misses the levers before the start where only changes are written', () => {
    const [opening] = notRight(judge(UP, DOWN).changes);
    expect(told(opening!)).toBe('opening A♮4 in 1.1: missing');
  });

  it('tells of a better place, and why, where the string still rings', () => {
    const held = { upper: 'F4/3 r/1 | r/4 | F#4/1 r/3', keyFifths: -3 };
    const score = leverPart(held, [1, 1, 'Tuning E♭ major. All levers down'], [1, 3, 'F♯4']);
    const { changes, points } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    expect(notRight(changes)).toMatchObject([{ verdict: 'better-place', better: { why: 'bends' } }]);
    expect(points).toEqual({ given: 3, most: 4 });
  });

  it('tells of a better place where a change comes hard upon its note, though a hand was free long before', () => {
    // A quarter is a fifth of a second.
    const upper = `F4/1 r/3 | ${'r/4 | '.repeat(5)}F#4/1 r/3`;
    const idle = { upper, keyFifths: -3, quartersPerMinute: 300 };
    const score = leverPart(idle, [1, 1, 'Tuning E♭ major. All levers down'], [6, 4, 'F♯4']);
    const { changes } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    expect(notRight(changes)).toMatchObject([{ verdict: 'better-place', better: { why: 'late' } }]);
  });

  it('tells of a better place where a change must be kept in mind for long', () => {
    const rests = Array.from({ length: 12 }, () => 'G4/4').join(' | ');
    const score = leverPart(
      { upper: `F4/1 r/3 | ${rests} | F#4/1 r/3`, keyFifths: -3 },
      [1, 1, 'Tuning E♭ major. All levers down'],
      [2, 3, 'F♯4'],
    );
    const { changes } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    expect(notRight(changes)).toMatchObject([{ verdict: 'better-place', better: { why: 'early' } }]);
  });

  it('tells of a better place where both hands play, and one is free before the note', () => {
    const both = {
      upper: 'F4/1 r/3 | G4/1 A4/1 G4/1 A4/1 | r/4 | F#4/1 r/3',
      lower: 'r/4 | C3/1 D3/1 C3/1 D3/1 | r/4 | r/4',
      keyFifths: -3,
    };
    const score = leverPart(both, [1, 1, 'Tuning E♭ major. Levers up: A♮4'], [2, 2, 'F♯4']);
    const { changes } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
    expect(notRight(changes)).toMatchObject([{ verdict: 'better-place', better: { why: 'busy' } }]);
  });

  it.each([
    ['rings on', { upper: 'F4/3 r/1 | r/4 | F#4/1 r/3', keyFifths: -3 }, [1, 3, 'F♯4']],
    [
      'is wanted at once',
      { upper: `F4/1 r/3 | ${'r/4 | '.repeat(5)}F#4/1 r/3`, keyFifths: -3, quartersPerMinute: 300 },
      [6, 4, 'F♯4'],
    ],
    [
      'is long wanted',
      { upper: `F4/1 r/3 | ${'G4/4 | '.repeat(12)}r/2 F#4/1 r/1`, keyFifths: -3 },
      [2, 3, 'F♯4'],
    ],
  ] satisfies [string, Parameters<typeof leverPart>[0], Words][])(
    'has the plan’s own place for the better one where the string %s',
    (_, part, written) => {
      const score = leverPart(part, [1, 1, 'Tuning E♭ major. All levers down'], written);
      const { changes } = judgeLeverAttempt(score, DEFAULT_LEVER_OPTIONS);
      const [change] = notRight(changes);
      const { moves } = planLevers({ ...score, leverWords: [] }, DEFAULT_LEVER_OPTIONS);
      const [{ at, bar, beat }] = moves as [LeverMove];
      expect(change!.better!.to).toEqual({ at, bar, beat });
    },
  );

  it('leaves what does nothing out of the points, and says why it does nothing', () => {
    const { changes, points } = judge(TABLE, [1, 4, 'C♯5'], UP, DOWN);
    expect(notRight(changes)).toMatchObject([{ verdict: 'needless', needless: { why: 'unasked' } }]);
    expect(points).toEqual({ given: 6, most: 6 });
    const again = judge(TABLE, UP, [1, 4, 'A♮4'], DOWN);
    expect(notRight(again.changes)).toMatchObject([{ verdict: 'needless', needless: { why: 'stands' } }]);
  });

  it('tells of a lever that goes up and down again for no note that both changes are not needed', () => {
    const { changes, points } = judge(TABLE, UP, [2, 1, 'B♮4'], [2, 2, 'B♭4'], DOWN, [3, 4, 'B♮4']);
    expect(notRight(changes).map(({ needless }) => [needless?.why, needless?.place?.bar])).toEqual([
      ['unasked', 1],
      ['unasked', 2],
      ['unasked', undefined],
    ]);
    const asked = { upper: 'B4/1 r/3 | r/4 | B4/1 A4/1 r/2', keyFifths: -3 };
    const back = judgeLeverAttempt(
      leverPart(
        { ...asked, upper: asked.upper.replaceAll('B4', 'Bb4') },
        TABLE,
        [1, 3, 'B♮4'],
        [2, 3, 'B♭4'],
      ),
      DEFAULT_LEVER_OPTIONS,
    );
    expect(notRight(back.changes).map(({ needless }) => needless?.why)).toEqual(['unasked', 'undoes']);
    expect(points).toEqual({ given: 6, most: 6 });
  });

  it('has everything missing where nothing is written', () => {
    const { changes, points } = judge();
    expect(changes.map(({ kind, verdict }) => `${kind} ${verdict}`)).toEqual([
      'opening missing',
      'change missing',
      'change missing',
    ]);
    expect(points).toEqual({ given: 0, most: 6 });
  });

  it('tells of words that it cannot read', () => {
    const { unread } = judge(TABLE, UP, [2, 3, 'F lever sideways']);
    expect(unread).toMatchObject([{ text: 'F lever sideways', bar: 1 }]);
  });
});

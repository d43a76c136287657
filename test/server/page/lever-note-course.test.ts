import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import type { LeverMove } from '../../../server/page/client/levers/lever-moves.ts';
import { leverNoteCourse } from '../../../server/page/client/levers/side/lever-note-course.ts';
import type { NotePlace } from '../../../server/page/client/planner/planned-part.ts';

const note = (head: string, name: string, quarters: number): NotePlace => ({
  name,
  bar: 0,
  onset: rational(quarters),
  notes: { barIndex: 0, beat: '1', pitch: name },
  head,
  others: [],
});

const change = (at: number, to: 'up' | 'down', text: string): LeverMove => ({
  at: `${at}`,
  bar: '1',
  barName: '1',
  barIndex: 0,
  beat: '1',
  graceNote: null,
  onlyAt: null,
  restores: false,
  window: { after: null, before: null },
  freedBy: null,
  neededBy: null,
  cost: { sum: 0, terms: [] },
  hand: 'left',
  handAway: { after: null, before: null },
  string: 'F4',
  to,
  change: text,
});

const PART = {
  notes: new Map([
    ['a', note('a', 'F♮4', 0)],
    ['b', note('b', 'F♯4', 2)],
    ['c', note('c', 'F4', 5)],
    ['tied', note('b', 'F♯4', 6)],
    ['left-out', note('left-out', 'F♮4', 6)],
    ['flat', note('flat', 'G♭4', 3)],
    ['high', note('high', 'G7', 7)],
    ['raised', note('raised', 'A♮3', 1)],
  ]),
};

const REPORT = {
  strings: [
    { string: 'A3', open: 'A♭3', lever: true },
    { string: 'F4', open: 'F♮4', lever: true },
    { string: 'G7', open: 'G7', lever: false },
  ],
  levers: ['A♮3'],
  moves: [change(2, 'up', 'F♯4'), change(5, 'down', 'F♮4')],
  respellings: [
    {
      note: 'flat',
      bar: '1',
      barName: '1',
      at: { barIndex: 0, beat: '1', pitch: 'G♭4' },
      from: 'G♭4',
      to: 'F♯4',
    },
  ],
  omitted: ['left-out'],
};

const courseOf = (id: string) => leverNoteCourse(PART, REPORT, id);

describe('what a note asks of the levers', () => {
  it('is its string with the lever down until the change that sets it', () => {
    expect(courseOf('a')).toMatchObject({ string: 'F4', lever: 'down', setBy: null, movesOn: 0 });
    expect(courseOf('b')).toMatchObject({ string: 'F4', lever: 'up', setBy: 0, movesOn: 1 });
    expect(courseOf('c')).toMatchObject({ string: 'F4', lever: 'down', setBy: 1, movesOn: null });
  });

  it('is the string that it is played on, where that has another name', () => {
    expect(courseOf('flat')).toMatchObject({ string: 'F4', pitch: 'F♯4', lever: 'up', setBy: 0 });
  });

  it('is what the note asks that it is tied to, though the lever stands otherwise by then', () => {
    expect(courseOf('tied')).toEqual(courseOf('b'));
  });

  it('begins with the levers that are up before the piece', () => {
    expect(courseOf('raised')).toMatchObject({ string: 'A3', lever: 'up', setBy: null });
  });

  it('is no lever on a string without one, and nothing of a note that is left out', () => {
    expect(courseOf('high')).toMatchObject({ string: 'G7', lever: null });
    expect(courseOf('left-out')).toBeNull();
  });
});

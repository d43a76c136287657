import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { callNotes, nameNotes } from '../../../engine/decisions/notes-at.ts';
import { placeDecisions } from '../../../engine/decisions/place-decisions.ts';
import { namePlace, placeTime } from '../../../engine/decisions/places.ts';
import { add, compare, rational, rationalKey } from '../../../engine/music/rational.ts';
import { writtenString } from '../../../engine/sounding/needs.ts';
import { smallPart } from '../../part-builder.ts';

const PART = smallPart({
  upper: 'C#4+E4/1 (D4) F4/2tr(Gb4) r/1 | ~F4/1 F##4/1:2 Bb4/5:2',
  lower: 'C#4/1 C3/1) C#3/1 D3/1 | A2/4',
});

const SIXES = smallPart({ upper: 'C4/3:2 D4/3:2 | E4/3', meter: { beats: 6, beatUnit: 8 } });

const place = (decisions: Partial<Decisions>, part = PART) =>
  placeDecisions(part, { ...NO_DECISIONS, ...decisions });

const noteIds = (name: string, bar: number): string[] =>
  PART.notes
    .filter(
      (note) => note.bar === bar && `${note.pitch.letter}${note.pitch.alter}${note.pitch.octave}` === name,
    )
    .map(({ id }) => id);

describe('the places of decisions', () => {
  it('beats count in units of the meter: beat 4 of 6/8 falls three eighths into the bar', () => {
    expect(placeTime(SIXES, { barIndex: 1, beat: '4' })).toEqual({ ok: true, at: rational(9, 2) });
  });

  it('names any time of a part so that the name leads back to it', () => {
    fc.assert(
      fc.property(fc.constantFrom(PART, SIXES), fc.nat(8 * 48), (part, ticks) => {
        const at = rational(ticks, 48);
        const last = part.bars.at(-1)!;
        fc.pre(compare(at, add(last.onset, last.duration)) < 0);
        expect(placeTime(part, namePlace(part, at)!)).toEqual({ ok: true, at });
      }),
    );
  });

  it('a span may end where the music does, but nothing begins there', () => {
    const end = namePlace(PART, rational(8))!;
    expect(end).toEqual({ barIndex: 1, beat: '5' });
    expect(placeTime(PART, end, 'end')).toEqual({ ok: true, at: rational(8) });
    expect(placeTime(PART, end)).toEqual({ ok: false, missing: 'beat' });
    expect(namePlace(PART, rational(33, 4))).toBeNull();
  });

  it.each(['0', '1/2', '5', '11/2', '', 'x', '-1', '1/0', '999999999/999999'])(
    'beat “%s” is not in a bar of four',
    (beat) => {
      expect(placeTime(PART, { barIndex: 0, beat })).toEqual({ ok: false, missing: 'beat' });
    },
  );

  it('any text whatever for a beat is answered, never thrown at', () => {
    fc.assert(
      fc.property(fc.nat(3), fc.oneof(fc.string(), fc.stringMatching(/^\d{1,9}\/\d{1,6}$/)), (bar, beat) => {
        const placed = placeTime(PART, { barIndex: bar, beat });
        if (placed.ok) expect(namePlace(PART, placed.at)).not.toBeNull();
      }),
    );
  });

  it('pins stand at their score times', () => {
    const { pins, unplaced: lost } = place({
      pins: [
        { kind: 'move', pedal: 'C', position: 'sharp', at: { barIndex: 1, beat: '3/2' } },
        { kind: 'position', pedal: 'B', position: 'flat', from: { barIndex: 0, beat: '1' }, until: null },
        { kind: 'forbid', from: { barIndex: 0, beat: '2' }, until: { barIndex: 1, beat: '5' } },
      ],
    });
    expect(lost).toEqual([]);
    expect(pins).toEqual([
      { kind: 'move', letter: 'C', position: 1, at: rational(9, 2) },
      { kind: 'position', letter: 'B', position: -1, from: rational(0), until: null },
      { kind: 'forbid', from: rational(1), until: rational(8) },
    ]);
  });
});

describe('the notes of decisions', () => {
  it('both hands’ C♯4 are one choice, unless a staff is named', () => {
    const both = place({ omit: [{ barIndex: 0, beat: '1', pitch: 'C♯4' }] });
    const left = place({ omit: [{ barIndex: 0, beat: '1', pitch: 'C#4', staff: 2 }] });
    expect([...both.omitted].sort()).toEqual(noteIds('C14', 0).sort());
    expect([...left.omitted]).toEqual(
      PART.notes.filter((note) => note.staff === 2 && note.onset.num === 0).map(({ id }) => id),
    );
  });

  it('grace notes and the note that they lead to are told apart where they have the pitch in common', () => {
    const part = smallPart({ upper: '(D4) (C4) (D4) D4/1 (E4) F4/1 r/2' });
    const names = part.notes.map(({ id }) => nameNotes(part)(id)!);
    expect(names.map(callNotes)).toEqual(['grace note D4', 'C4', 'grace note D4', 'D4', 'E4', 'F4']);
    for (const [i, name] of names.entries()) {
      expect([...place({ omit: [name] }, part).omitted]).toEqual([part.notes[i]!.id]);
    }
    const [all] = names.map(({ barIndex, beat, pitch }) => ({ barIndex, beat, pitch }));
    expect(place({ omit: [all!] }, part).omitted.size).toBe(3);
  });

  it('a note that a tie holds is told by where it is plucked', () => {
    const [head] = noteIds('F04', 0);
    const [held] = noteIds('F04', 1);
    expect(nameNotes(PART)(held!)).toEqual(nameNotes(PART)(head!));
    expect([...place({ omit: [{ barIndex: 1, beat: '1', pitch: 'F4' }] }).omitted]).toEqual([head]);
  });

  it('names every note so that the name leads back to it, and to no note of another string or time', () => {
    for (const note of PART.notes) {
      const name = nameNotes(PART)(note.id)!;
      const { omitted, unplaced: lost } = place({ omit: [name] });
      const found = PART.notes.filter(({ id }) => omitted.has(id));
      expect(lost).toEqual([]);
      expect(omitted).toContain(note.tiedFrom ?? note.id);
      for (const each of found) {
        expect(writtenString(each)).toEqual(writtenString(note));
        if (note.tiedFrom === null) expect(rationalKey(each.onset)).toBe(rationalKey(note.onset));
      }
    }
  });

  it('a harmonic is told by the string that is plucked', () => {
    const part = smallPart({ upper: 'C4/1o' });
    expect(nameNotes(part)(part.notes[0]!.id)).toEqual({ barIndex: 0, beat: '1', pitch: 'C4' });
  });

  it('C♯4 may be played as D♭4; a note may be told to stay as it is written', () => {
    const [note] = noteIds('C14', 0);
    const as = (to: string) =>
      place({ respell: [{ barIndex: 0, beat: '1', pitch: 'C♯4', to }] }).respelled.get(note!);
    expect(as('D♭4')).toEqual({ letter: 'D', alter: -1, octave: 4 });
    expect(as('Db4')).toEqual(as('D♭4'));
    expect(as('C♯4')).toEqual({ letter: 'C', alter: 1, octave: 4 });
  });

  it('of two choices for one note the later stands', () => {
    const entry = { barIndex: 0, beat: '1', pitch: 'C♯4', staff: 1 };
    const { respelled } = place({
      respell: [
        { ...entry, to: 'D♭4' },
        { ...entry, to: 'C♯4' },
      ],
    });
    expect([...respelled.values()]).toEqual([{ letter: 'C', alter: 1, octave: 4 }]);
  });
});

describe('entries that lost their place', () => {
  const first = (decisions: Partial<Decisions>) => place(decisions).unplaced[0];
  const note = { barIndex: 0, beat: '1', pitch: 'C♯4' };

  it.each<[string, Partial<Decisions>, string | null, string]>([
    [
      'a bar past the end',
      { omit: [{ ...note, barIndex: 7 }] },
      null,
      'The decision to leave out C♯4 in bar 8, beat 1',
    ],
    ['a beat past its bar', { omit: [{ ...note, beat: '6' }] }, null, 'its bar has no such beat'],
    ['another pitch', { omit: [{ ...note, pitch: 'C4' }] }, 'pitch', 'no note with this pitch begins there'],
    [
      'no pitch at all',
      { omit: [{ ...note, pitch: 'H4' }] },
      'pitch',
      'no note with this pitch begins there',
    ],
    ['a string of another pitch', { respell: [{ ...note, to: 'D4' }] }, 'to', 'as D4'],
    ['three octaves away', { respell: [{ ...note, to: 'D♭7' }] }, 'to', 'does not have the pitch'],
    [
      'a double accidental kept as written, which no string gives',
      { respell: [{ barIndex: 1, beat: '2', pitch: 'F𝄪4', to: 'F𝄪4' }] },
      'to',
      'does not have the pitch',
    ],
    [
      'the end of a slide on one string',
      { respell: [{ barIndex: 0, beat: '3', pitch: 'C♯3', to: 'D♭3' }] },
      'pitch',
      'slide',
    ],
    [
      'a setting where nothing begins',
      { fullSettings: [{ barIndex: 0, beat: '17/16', print: true }] },
      'beat',
      'no note or beat',
    ],
    [
      'a span that ends before it begins',
      { pins: [{ kind: 'forbid', from: { barIndex: 1, beat: '1' }, until: { barIndex: 0, beat: '1' } }] },
      'until',
      'ends before it begins',
    ],
    [
      'a pin on a bar that is gone',
      { pins: [{ kind: 'move', pedal: 'C', position: 'flat', at: { barIndex: 2, beat: '1' } }] },
      'at',
      'The pinned move of the C pedal in bar 3, beat 1 is ignored: the part has no such bar.',
    ],
  ])('%s', (_, decisions, field, sentence) => {
    expect(first(decisions)?.field).toBe(field);
    expect(first(decisions)?.sentence).toContain(sentence);
  });

  it('are told with their movement where the second numbers its bars anew', () => {
    const bars = PART.bars.map((bar) => ({ ...bar, number: '1' }));
    const [lost] = place(
      { omit: [{ ...note, barIndex: 1, beat: '6' }] },
      { ...PART, bars, movements: [1] },
    ).unplaced;
    expect(lost?.sentence).toContain('The decision to leave out C♯4 in bar II 1, beat 6');
  });

  it('leave the rest of the decisions standing', () => {
    const { unplaced: lost, omitted } = place({ omit: [{ ...note, barIndex: 9 }, note] });
    expect(lost.map(({ list, index }) => `${list}.${index}`)).toEqual(['omit.0']);
    expect(omitted.size).toBe(2);
  });
});

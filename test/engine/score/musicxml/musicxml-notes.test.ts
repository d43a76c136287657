import { describe, expect, it } from 'vitest';
import {
  backup,
  bar,
  buildHarp,
  forward,
  note,
  noteNamed,
  onsets,
  pitches,
  quarters,
  readHarp,
  readScore,
  rest,
} from './musicxml-builder.ts';

describe('pitch', () => {
  it('is what the file alters, whatever the key signature says', () => {
    const score = readHarp(bar(note('F#4') + note('F4'), { attributes: '<key><fifths>2</fifths></key>' }));
    expect(pitches(score)).toEqual(['F♯4', 'F4']);
  });

  it('keeps quarter-tones', () => {
    expect(readHarp(note('A+4')).notes[0]!.pitch.alter).toBe(0.5);
  });

  it('sounds an octave lower in a part written an octave too high', () => {
    const transpose = '<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>';
    expect(pitches(readHarp(bar(note('C#5'), { attributes: transpose })))).toEqual(['C♯4']);
  });

  it('is spelled by the diatonic steps of a transposition, and by the usual interval where the file states none', () => {
    const stated = '<transpose><diatonic>-2</diatonic><chromatic>-3</chromatic></transpose>';
    expect(pitches(readHarp(bar(note('C5') + note('E5'), { attributes: stated })))).toEqual(['A4', 'C♯5']);
    const bare = '<transpose><chromatic>-2</chromatic></transpose>';
    expect(pitches(readHarp(bar(note('C5') + note('E5'), { attributes: bare })))).toEqual(['B♭4', 'D5']);
  });

  it('is transposed on the named staff alone', () => {
    const second =
      '<transpose number="2"><chromatic>0</chromatic><octave-change>1</octave-change></transpose>';
    const music = note('C4', 4) + backup(4) + note('C3', 4, { staff: 2, voice: '2' });
    const score = readHarp(bar(music, { attributes: second }));
    expect(pitches(score)).toEqual(['C4', 'C4']);
    expect(score.notes.map((each) => each.staff)).toEqual([1, 2]);
  });

  it('is what sounds under an octave line already', () => {
    const line =
      '<direction><direction-type><octave-shift type="down" size="8"/></direction-type></direction>';
    expect(pitches(readHarp(line + note('C6')))).toEqual(['C6']);
  });
});

describe('time', () => {
  it('goes on from note to note, and back for another voice', () => {
    const score = readHarp(note('C5') + note('D5') + backup(2) + note('C3', 2, { voice: '2', staff: 2 }));
    expect(pitches(score)).toEqual(['C5', 'C3', 'D5']);
    expect(onsets(score)).toEqual(['0', '0', '1']);
  });

  it('gives the notes of a chord one onset and the id of its first note', () => {
    const score = readHarp(
      note('C4', 1, { id: 'c' }) +
        note('E4', 1, { chord: true }) +
        note('G4', 1, { chord: true }) +
        note('C5'),
    );
    expect(onsets(score)).toEqual(['0', '0', '0', '1']);
    expect(score.notes.map((each) => each.chord === 'c')).toEqual([true, true, true, false]);
  });

  it('goes on after the first note of a chord, however long the others are', () => {
    const score = readHarp(note('C4', 2) + note('E4', 1, { chord: true }) + note('G4'));
    expect(onsets(score)).toEqual(['0', '0', '2']);
  });

  it('counts tuplets by their real length', () => {
    const fifth = 1 / 5;
    const score = readHarp(
      ['C4', 'D4', 'E4', 'F4', 'G4'].map((each) => note(each, fifth)).join('') + note('A4'),
    );
    expect(onsets(score)).toEqual(['0', '1/5', '2/5', '3/5', '4/5', '1']);
  });

  it('follows a change of divisions', () => {
    const change = '<attributes><divisions>3</divisions></attributes>';
    const triplet = '<note><pitch><step>D</step><octave>4</octave></pitch><duration>1</duration></note>';
    const score = readHarp(note('C4') + change + triplet + triplet);
    expect(onsets(score)).toEqual(['0', '1', '4/3']);
  });

  it('passes over the time of a forward', () => {
    expect(onsets(readHarp(forward(1.5) + note('C4')))).toEqual(['3/2']);
  });

  it('keeps rests with their lengths', () => {
    const score = readHarp(note('C4') + rest(3));
    expect(score.rests.map((each) => [quarters(each.onset), quarters(each.duration)])).toEqual([['1', '3']]);
  });
});

describe('staves', () => {
  it('a stated number of 0 is valid (MusicXML 4.0, staves) and means the one staff that there is', () => {
    const score = readHarp(bar(note('C4', 4), { attributes: '<staves>0</staves>' }));
    expect(score.harp.staves).toBe(1);
    expect(pitches(score)).toEqual(['C4']);
  });

  it('a cross-staff note has the staff on which it is printed', () => {
    const score = readHarp(
      note('C4', 1, { staff: 2 }) + note('E4', 1, { staff: 1 }) + note('G4', 1, { staff: 1 }),
    );
    expect(score.notes.map((each) => [each.staff, each.voice])).toEqual([
      [2, '1'],
      [1, '1'],
      [1, '1'],
    ]);
    expect(score.harp.staves).toBe(2);
  });
});

describe('grace notes', () => {
  it('stand before their note, in playing order, and take no time', () => {
    const score = readHarp(
      note('C5', 0, { grace: 'slashed' }) + note('D5', 0, { grace: 'plain' }) + note('E5', 1) + note('F5', 1),
    );
    expect(pitches(score)).toEqual(['C5', 'D5', 'E5', 'F5']);
    expect(onsets(score)).toEqual(['0', '0', '0', '1']);
    expect(score.notes.map((each) => each.grace)).toEqual([
      { order: 0, slashed: true },
      { order: 1, slashed: false },
      null,
      null,
    ]);
  });

  it('share an order in a chord', () => {
    const score = readHarp(
      note('C5', 0, { grace: 'plain' }) + note('E5', 0, { grace: 'plain', chord: true }) + note('F5'),
    );
    expect(score.notes.map((each) => each.grace?.order)).toEqual([0, 0, undefined]);
  });

  it('at the end of a bar come at the next bar line, before the grace notes of the next bar', () => {
    const score = readHarp(
      note('C5', 4) + note('D5', 0, { grace: 'plain' }),
      note('E5', 0, { grace: 'plain' }) + note('F5', 4),
    );
    expect(pitches(score)).toEqual(['C5', 'D5', 'E5', 'F5']);
    expect(onsets(score)).toEqual(['0', '4', '4', '4']);
    expect(score.notes.map((each) => each.grace?.order ?? null)).toEqual([null, 0, 1, null]);
    expect(score.notes.map((each) => each.bar)).toEqual([0, 0, 1, 1]);
  });
});

describe('notes that are not plainly printed', () => {
  it('a cue belongs to another instrument, a hidden note sounds', () => {
    const score = readHarp(note('C4', 1, { cue: true }) + note('D4', 1, { hidden: true }) + note('E4'));
    expect(score.notes.map((each) => each.role)).toEqual(['cue', 'hidden', 'played']);
  });

  it('a hidden note that doubles a printed one is left out, with a remark', () => {
    const score = readHarp(note('C4', 2) + backup(2) + note('C4', 2, { hidden: true, voice: '2' }));
    expect(pitches(score)).toEqual(['C4']);
    expect(score.notes[0]!.role).toBe('played');
    expect(score.remarks.some((remark) => remark.message.includes('hidden'))).toBe(true);
  });

  it('a hidden note of another spelling stays', () => {
    const score = readHarp(note('C#4', 2) + backup(2) + note('Db4', 2, { hidden: true, voice: '2' }));
    expect(pitches(score)).toEqual(['C♯4', 'D♭4']);
  });

  it('a chord keeps an id of its own when its first note is left out', () => {
    const score = readHarp(
      note('C4', 2) +
        backup(2) +
        note('C4', 2, { hidden: true, id: 'x' }) +
        note('E4', 2, { hidden: true, chord: true }),
    );
    expect(noteNamed(score, 'E4').chord).toBe(noteNamed(score, 'E4').id);
  });

  it('notes without pitch are left out, with a remark', () => {
    const tap = '<note><unpitched/><duration>240</duration></note>';
    const score = readHarp(tap + note('C4') + tap);
    expect(onsets(score)).toEqual(['1']);
    expect(score.remarks.map((remark) => remark.message)).toContain('Notes without a pitch are ignored.');
  });
});

describe('ids', () => {
  it('are the file’s own where unique, else made from the place in the text', () => {
    const xml = buildHarp(
      note('C4', 1, { id: 'one' }) + note('D4', 1, { id: 'two' }) + note('E4', 1, { id: 'two' }),
    );
    const score = readScore(xml);
    const [first, second, third] = score.notes;
    expect(first!.id).toBe('one');
    expect([second!.id, third!.id]).toEqual([`n${second!.span.start}`, `n${third!.span.start}`]);
  });

  it('never meet an id that the file uses elsewhere', () => {
    const plain = readHarp(note('C4')).notes[0]!.id;
    const xml = buildHarp(note('C4')).replace('</measure>', `<print id="${plain}"/></measure>`);
    expect(readScore(xml).notes[0]!.id).not.toBe(plain);
  });

  it('mark the place of the note in the text, to the character', () => {
    const xml = buildHarp(note('C4') + note('D4'));
    const { span } = noteNamed(readScore(xml), 'D4');
    expect(xml.slice(span.start, span.end)).toBe(note('D4'));
  });
});

import { describe, expect, it } from 'vitest';
import type { Score } from '../../../../engine/score/model/score.ts';
import { backup, bar, nameOf, note, noteNamed, pitches, quarters, readHarp } from './musicxml-builder.ts';

const ornamented = (pitch: string, signs: string, quartersLong = 1): string =>
  note(pitch, quartersLong, { notations: `<ornaments>${signs}</ornaments>` });

/** Kind, upper and lower neighbour of the last note. */
const ornament = (score: Score): readonly (string | null)[] => {
  const found = score.notes.at(-1)!.ornament!;
  return [found.kind, nameOf(found.upper), nameOf(found.lower)];
};

const inKey = (fifths: number, music: string): Score =>
  readHarp(bar(music, { attributes: `<key><fifths>${fifths}</fifths></key>` }));

describe('the neighbour of an ornament', () => {
  it('follows the key signature', () => {
    expect(ornament(inKey(-3, ornamented('D5', '<trill-mark/>')))).toEqual(['trill', 'E♭5', null]);
    expect(ornament(inKey(1, ornamented('E5', '<trill-mark/>')))).toEqual(['trill', 'F♯5', null]);
  });

  it('follows an accidental earlier in the bar at the same octave and staff', () => {
    expect(ornament(inKey(0, note('E5') + note('Eb5') + ornamented('D5', '<trill-mark/>')))).toEqual([
      'trill',
      'E♭5',
      null,
    ]);
    expect(ornament(inKey(0, note('Eb4') + ornamented('D5', '<trill-mark/>')))).toEqual([
      'trill',
      'E5',
      null,
    ]);
    const otherStaff = note('Eb5', 1, { staff: 2 }) + ornamented('D5', '<trill-mark/>');
    expect(ornament(inKey(0, otherStaff))).toEqual(['trill', 'E5', null]);
  });

  it('follows an accidental of another voice only from its time on', () => {
    const late =
      ornamented('D5', '<trill-mark/>', 2) + backup(2) + note('C4') + note('Eb5', 1, { voice: '2' });
    const score = inKey(0, late);
    expect(nameOf(noteNamed(score, 'D5').ornament!.upper)).toBe('E5');
    const early = note('B4') + ornamented('D5', '<trill-mark/>') + backup(2) + note('Eb5', 1, { voice: '2' });
    expect(nameOf(noteNamed(inKey(0, early), 'D5').ornament!.upper)).toBe('E♭5');
  });

  it('forgets accidentals at the bar line, and those that a tie brings over it', () => {
    const score = readHarp(note('Eb5', 4), ornamented('D5', '<trill-mark/>'));
    expect(ornament(score)).toEqual(['trill', 'E5', null]);
    const overTie = readHarp(
      note('Eb5', 4, { ties: ['start'] }),
      note('Eb5', 1, { ties: ['stop'] }) + ornamented('D5', '<trill-mark/>'),
    );
    expect(ornament(overTie)).toEqual(['trill', 'E5', null]);
  });

  it('does not follow an accidental that is not printed', () => {
    expect(ornament(inKey(0, note('Eb5', 1, { hidden: true }) + ornamented('D5', '<trill-mark/>')))).toEqual([
      'trill',
      'E5',
      null,
    ]);
  });

  it('has the accidental of its own sign', () => {
    const flat = '<trill-mark/><accidental-mark>flat</accidental-mark>';
    expect(ornament(inKey(0, ornamented('D5', flat)))).toEqual(['trill', 'E♭5', null]);
    const natural = '<trill-mark/><accidental-mark>natural</accidental-mark>';
    expect(ornament(inKey(-3, ornamented('D5', natural)))).toEqual(['trill', 'E5', null]);
  });

  it('changes with the key inside a bar', () => {
    const key = '<attributes><key><fifths>-3</fifths></key></attributes>';
    expect(ornament(inKey(0, note('C5') + key + ornamented('D5', '<trill-mark/>')))).toEqual([
      'trill',
      'E♭5',
      null,
    ]);
  });

  it('sounds transposed like its note', () => {
    const attributes = '<key><fifths>-3</fifths></key><transpose><chromatic>-12</chromatic></transpose>';
    const score = readHarp(bar(ornamented('D5', '<trill-mark/>'), { attributes }));
    expect(ornament(score)).toEqual(['trill', 'E♭4', null]);
  });

  it('is the lower one for MusicXML’s mordent, the upper one for its inverted mordent', () => {
    expect(ornament(inKey(0, ornamented('D5', '<mordent/>')))).toEqual(['mordent', null, 'C5']);
    expect(ornament(inKey(0, ornamented('D5', '<inverted-mordent/>')))).toEqual([
      'inverted-mordent',
      'E5',
      null,
    ]);
    const sharp = '<mordent/><accidental-mark placement="below">sharp</accidental-mark>';
    expect(ornament(inKey(0, ornamented('D5', sharp)))).toEqual(['mordent', null, 'C♯5']);
  });

  it('lies on both sides for a turn, each with the accidental on its side', () => {
    const marks =
      '<turn/><accidental-mark placement="above">flat</accidental-mark><accidental-mark placement="below">sharp</accidental-mark>';
    expect(ornament(inKey(0, ornamented('D5', marks)))).toEqual(['turn', 'E♭5', 'C♯5']);
    expect(ornament(inKey(0, ornamented('D5', '<delayed-inverted-turn/>')))).toEqual([
      'delayed-inverted-turn',
      'E5',
      'C5',
    ]);
  });

  it('is unknown for other signs', () => {
    expect(ornament(inKey(0, ornamented('D5', '<schleifer/>')))).toEqual(['other', null, null]);
  });

  it('stays with a trill that a tie carries on', () => {
    const start = note('D5', 4, {
      ties: ['start'],
      notations: '<ornaments><trill-mark/><wavy-line type="start"/></ornaments>',
    });
    const stop = note('D5', 4, {
      ties: ['stop'],
      notations: '<ornaments><wavy-line type="stop"/></ornaments>',
    });
    expect(ornament(readHarp(start, stop))).toEqual(['trill', 'E5', null]);
  });
});

describe('tremolo', () => {
  it('without a number of marks is read as unmeasured, and a remark says so', () => {
    const score = readHarp(note('C4', 4, { notations: '<ornaments><tremolo/></ornaments>' }));
    expect(score.notes[0]!.tremolo).toEqual({ kind: 'single', marks: 0, pair: null });
    expect(score.remarks.filter((each) => each.code === 'skipped').map((each) => each.message)).toEqual([
      'A tremolo does not say how many marks it has and is read as unmeasured.',
    ]);
  });

  it('that is said to be unmeasured needs no number', () => {
    const score = readHarp(
      note('C4', 4, { notations: '<ornaments><tremolo type="unmeasured"/></ornaments>' }),
    );
    expect(score.notes[0]!.tremolo?.marks).toBe(0);
    expect(score.remarks.filter((each) => each.code === 'skipped')).toEqual([]);
  });

  it('on one note has its number of strokes, and holds for the chord', () => {
    const tremolo = '<ornaments><tremolo type="single">3</tremolo></ornaments>';
    const score = readHarp(note('C4', 1, { notations: tremolo }) + note('E4', 1, { chord: true }));
    const expected = { kind: 'single', marks: 3, pair: null };
    expect(score.notes.map((each) => each.tremolo)).toEqual([expected, expected]);
  });

  it('between two chords names the other chord by its first note', () => {
    const end = (type: string): string => `<ornaments><tremolo type="${type}">2</tremolo></ornaments>`;
    const score = readHarp(
      note('C4', 1, { id: 'c', notations: end('start') }) +
        note('E4', 1, { id: 'e', chord: true }) +
        note('G4', 1, { id: 'g', notations: end('stop') }),
    );
    expect(score.notes.map((each) => each.tremolo?.pair)).toEqual(['g', 'g', 'c']);
    expect(score.notes.every((each) => each.tremolo?.kind === 'between')).toBe(true);
  });

  it('between notes with one end only is told', () => {
    const score = readHarp(
      note('C4', 1, { notations: '<ornaments><tremolo type="start">2</tremolo></ornaments>' }),
    );
    expect(score.notes[0]!.tremolo).toEqual({ kind: 'between', marks: 2, pair: null });
    expect(score.remarks.some((remark) => remark.message.includes('tremolo'))).toBe(true);
  });
});

describe('arpeggio', () => {
  it('holds for the whole chord, up unless it says down', () => {
    const score = readHarp(
      note('C4', 1, { notations: '<arpeggiate/>' }) +
        note('E4', 1, { chord: true }) +
        note('C5', 1, { notations: '<arpeggiate direction="down"/>' }) +
        note('D5', 1),
    );
    expect(score.notes.map((each) => each.arpeggio)).toEqual(['plain', 'plain', 'down', null]);
  });

  it('is forbidden for the whole chord by the bracket at its outer notes', () => {
    const score = readHarp(
      note('C4', 1, { notations: '<non-arpeggiate type="bottom"/>' }) +
        note('E4', 1, { chord: true }) +
        note('G4', 1, { chord: true, notations: '<non-arpeggiate type="top"/>' }),
    );
    expect(score.notes.map((each) => each.arpeggio)).toEqual(['none', 'none', 'none']);
  });
});

describe('harmonics', () => {
  const harmonic = (content: string): string => `<technical><harmonic>${content}</harmonic></technical>`;

  it('a circle without more stands at the string and sounds an octave higher: assumed, and said once', () => {
    const score = readHarp(
      note('C4', 1, { notations: harmonic('<natural/>') }) + note('D4', 1, { notations: harmonic('') }),
    );
    expect(pitches(score)).toEqual(['C5', 'D5']);
    expect(score.notes.map((each) => nameOf(each.harmonic!.string))).toEqual(['C4', 'D4']);
    expect(score.notes.every((each) => each.harmonic!.assumed)).toBe(true);
    expect(score.remarks.filter((remark) => remark.code === 'harmonic-assumed')).toHaveLength(1);
  });

  it('a stated base pitch is the string, a stated sounding pitch is an octave above it', () => {
    const base = readHarp(note('C4', 1, { notations: harmonic('<natural/><base-pitch/>') }));
    expect(pitches(base)).toEqual(['C5']);
    const sounding = readHarp(note('C5', 1, { notations: harmonic('<natural/><sounding-pitch/>') }));
    expect(pitches(sounding)).toEqual(['C5']);
    expect(sounding.notes[0]!.harmonic).toEqual({
      string: { letter: 'C', alter: 0, octave: 4 },
      notated: 'sounding-pitch',
      assumed: false,
    });
    expect(sounding.remarks.some((remark) => remark.code === 'harmonic-assumed')).toBe(false);
  });

  it('written with base and sounding pitch is one string plucked once', () => {
    const score = readHarp(
      note('C4', 1, { notations: harmonic('<artificial/><base-pitch/>') }) +
        note('C5', 1, { chord: true, notations: harmonic('<artificial/><sounding-pitch/>') }),
    );
    expect(pitches(score)).toEqual(['C5']);
  });
});

describe('glissando and slide', () => {
  const sweep = (kind: string, type: string, number = 1): string =>
    `<${kind} type="${type}" number="${number}"/>`;

  it('lead from one note to another', () => {
    const score = readHarp(
      note('C4', 2, { id: 'low', notations: sweep('glissando', 'start') }) +
        note('C6', 2, { id: 'high', notations: sweep('glissando', 'stop') }),
    );
    const [found] = score.sweeps;
    expect([found!.kind, found!.from, found!.to]).toEqual(['glissando', 'low', 'high']);
    expect([quarters(found!.start), quarters(found!.end), found!.bar]).toEqual(['0', '2', 0]);
  });

  it('join by number in a chord', () => {
    const score = readHarp(
      note('C4', 1, { id: 'c', notations: sweep('slide', 'start', 1) }) +
        note('E4', 1, { id: 'e', chord: true, notations: sweep('slide', 'start', 2) }) +
        note('G4', 1, { id: 'g', notations: sweep('slide', 'stop', 2) }) +
        note('F4', 1, { id: 'f', chord: true, notations: sweep('slide', 'stop', 1) }),
    );
    expect(score.sweeps.map((each) => `${each.from}-${each.to}`).toSorted()).toEqual(['c-f', 'e-g']);
  });

  it('follow each other through one note', () => {
    const both = sweep('glissando', 'stop') + sweep('glissando', 'start');
    const score = readHarp(
      note('C4', 1, { id: 'a', notations: sweep('glissando', 'start') }) +
        note('C6', 1, { id: 'b', notations: both }) +
        note('C4', 1, { id: 'c', notations: sweep('glissando', 'stop') }),
    );
    expect(score.sweeps.map((each) => `${each.from}-${each.to}`)).toEqual(['a-b', 'b-c']);
  });

  it('stay in their voice where two voices use one number', () => {
    const voice = (name: string, length: number): string =>
      note('C4', length, { id: `${name}1`, voice: name, notations: sweep('glissando', 'start') }) +
      note('C5', 1, { id: `${name}2`, voice: name, notations: sweep('glissando', 'stop') });
    const score = readHarp(voice('1', 3) + backup(4) + voice('2', 1));
    expect(score.sweeps.map((each) => `${each.from}-${each.to}`).toSorted()).toEqual(['11-12', '21-22']);
  });

  it('with one end only are left out, with a remark', () => {
    const score = readHarp(note('C4', 1, { notations: sweep('glissando', 'start') }));
    expect(score.sweeps).toEqual([]);
    expect(score.remarks.some((remark) => remark.message.includes('glissando'))).toBe(true);
  });
});

it('laissez vibrer lets a note ring', () => {
  const score = readHarp(note('C4', 1, { notations: '<tied type="let-ring"/>' }) + note('D4'));
  expect(score.notes.map((each) => each.letRing)).toEqual([true, false]);
  expect(score.notes.map((each) => each.tiedFrom)).toEqual([null, null]);
});

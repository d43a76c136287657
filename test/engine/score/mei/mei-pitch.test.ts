import { describe, expect, it } from 'vitest';
import {
  bar,
  chord,
  meiScore,
  note,
  noteById,
  notes,
  pitches,
  read,
  readResult,
  remarkCodes,
} from './mei-builder.ts';

const inKey = (keysig: string, upper: string): string =>
  meiScore(bar({ upper }), { definition: `meter.count="4" meter.unit="4" keysig="${keysig}"` });

describe('what an unmarked note means', () => {
  it('takes the key signature where nothing is written', () => {
    expect(pitches(read(inKey('3f', notes('e4 b4 a4 d5', 4))))).toBe('E♭4 B♭4 A♭4 D5');
  });

  it('carries an accidental to the end of the bar at the same octave only', () => {
    const first = bar({ upper: note('f4', 4, 'accid="s"') + notes('f4 f5 g4', 4) });
    expect(pitches(read(meiScore(first + bar({ upper: notes('f4', 1) }))))).toBe('F♯4 F♯4 F5 G4 F4');
  });

  it('carries an accidental from one voice to another of the same staff, not to the other staff', () => {
    const upper = `<layer n="1"><space dur="4"/>${notes('f4 g4 g4', 4)}</layer><layer n="2">${note('f4', 1, 'accid="s"')}</layer>`;
    const score = read(meiScore(bar({ upper, lower: notes('f4', 1) })));
    expect(score.notes.map((each) => `${each.staff} ${each.pitch.letter}${each.pitch.alter}`)).toEqual([
      '1 F1', '2 F0', '1 F1', '1 G0', '1 G0',
    ]); // biome-ignore format: one claim a line
  });

  it('believes the performed accidental over the written and the carried one', () => {
    const upper = note('f4', 4, 'accid="s"') + note('f4', 4, 'accid.ges="n"') + notes('f4 f4', 4);
    expect(pitches(read(meiScore(bar({ upper }))))).toBe('F♯4 F4 F♯4 F♯4');
  });

  it('believes the performed accidental also against the one printed at the note itself', () => {
    expect(pitches(read(meiScore(bar({ upper: note('f4', 1, 'accid="s" accid.ges="n"') }))))).toBe('F4');
  });

  it('reads accidentals as child elements, editorial ones included', () => {
    const upper =
      note('f4', 2, '', '<accid accid="s" func="edit"/>') + note('b4', 2, '', '<accid accid.ges="f"/>');
    expect(pitches(read(meiScore(bar({ upper }))))).toBe('F♯4 B♭4');
  });

  it('reads quarter-tones as fractions of a semitone', () => {
    const upper = ['1qs', '3qf', 'su', 'fd'].map((accid) => note('g4', 4, `accid="${accid}"`)).join('');
    expect(read(meiScore(bar({ upper }))).notes.map((each) => each.pitch.alter)).toEqual([
      0.5, -1.5, 1.5, -1.5,
    ]);
  });

  it('keeps a tied note altered over the bar line, and what follows as the key has it', () => {
    const first = bar({ upper: `<space dur="2" dots="1"/>${note('f4', 4, 'accid="s" tie="i"')}` });
    const second = bar({ upper: note('f4', 4, 'tie="t"') + notes('f4 g4 g4', 4) });
    expect(pitches(read(meiScore(first + second)))).toBe('F♯4 F♯4 F4 G4 G4');
  });

  it('reads a note as natural where the file states every altered note but this one, and says so', () => {
    const stated = bar({ upper: note('f4', 4, 'accid.ges="s"').repeat(4) });
    const flow = stated.repeat(3) + bar({ upper: notes('f4', 1) });
    const score = read(meiScore(flow, { definition: 'keysig="1s"' }));
    expect(score.notes.at(-1)?.pitch.alter).toBe(0);
    expect(remarkCodes(score)).toContain('alternative-chosen');
  });

  it('keeps to key and bar where only some notes state what they sound', () => {
    const some = bar({ upper: note('f4', 4, 'accid.ges="s"').repeat(2) + notes('f4 f4', 4) });
    expect(pitches(read(meiScore(some, { definition: 'keysig="1s"' })))).toBe('F♯4 F♯4 F♯4 F♯4');
  });

  it('changes the key inside a bar from where the signature stands', () => {
    const upper = `${notes('f4 f4', 4)}<keySig sig="1s"/>${notes('f4 f4', 4)}`;
    const score = read(meiScore(bar({ upper }) + bar({ upper: notes('f4', 1) })));
    expect(pitches(score)).toBe('F4 F4 F♯4 F♯4 F♯4');
    expect(score.bars.map((each) => each.keyFifths)).toEqual([0, 1]);
  });

  it('lets a new signature of the score change every staff, and one of a staff that staff', () => {
    const flow = `${bar({ upper: notes('b4', 1), lower: notes('b2', 1) })}<scoreDef keysig="2f"/>${bar({ upper: notes('b4', 1), lower: notes('b2', 1) })}<staffDef n="2" keysig="0"/>${bar({ upper: notes('b4', 1), lower: notes('b2', 1) })}`;
    expect(pitches(read(meiScore(flow)))).toBe('B4 B2 B♭4 B♭2 B♭4 B2');
  });

  it('reads signatures of MEI 3 and 4, keySig elements, and signatures that are no row of fifths', () => {
    const flow = bar({ upper: notes('f4 b4', 2) });
    expect(pitches(read(meiScore(flow, { definition: 'key.sig="1s"', version: '4.0.1' })))).toBe('F♯4 B4');
    const staves =
      '<keySig sig="1s"/><staffGrp symbol="brace" label="Harp"><staffDef n="1"/><staffDef n="2"/></staffGrp>';
    expect(pitches(read(meiScore(flow, { definition: '', staves })))).toBe('F♯4 B4');
    const mixed = staves.replace(
      '<keySig sig="1s"/>',
      '<keySig sig="mixed"><keyAccid pname="b" accid="f"/><keyAccid pname="f" accid="s"/></keySig>',
    );
    expect(pitches(read(meiScore(flow, { definition: '', staves: mixed })))).toBe('F♯4 B♭4');
  });
});

describe('from written to sounding pitch', () => {
  it('sounds an octave higher under an ottava, from its first note to its last', () => {
    const upper = [1, 2, 3, 4].map((n) => note('c5', 4, `xml:id="n${n}"`)).join('');
    const marks = '<octave staff="1" dis="8" dis.place="above" startid="#n2" endid="#n3"/>';
    expect(pitches(read(meiScore(bar({ upper, marks }))))).toBe('C5 C6 C6 C5');
  });

  it('measures an ottava by timestamps over bar lines, on its own staff only', () => {
    const marks = '<octave staff="2" dis="15" dis.place="below" tstamp="3" tstamp2="1m+1"/>';
    const flow =
      bar({ upper: notes('c5', 1), lower: notes('c3 c3', 2), marks }) + bar({ lower: notes('c3 c3', 2) });
    expect(pitches(read(meiScore(flow)))).toBe('C5 C3 C1 C1 C3');
  });

  it('leaves the grace before the first note of an ottava where it is written', () => {
    const upper = note('b4', 8, 'grace="unacc"') + note('c5', 1, 'xml:id="main"');
    const marks = '<octave staff="1" dis="8" dis.place="above" startid="#main" endid="#main"/>';
    expect(pitches(read(meiScore(bar({ upper, marks }))))).toBe('B4 C6');
  });

  it('lets the performed octave of a note decide against the ottava line', () => {
    const upper = note('c5', 1, 'xml:id="a" oct.ges="6"');
    const marks = '<octave staff="1" dis="15" dis.place="above" startid="#a" endid="#a"/>';
    expect(pitches(read(meiScore(bar({ upper, marks }))))).toBe('C6');
  });

  it('applies a transposition by steps and semitones', () => {
    const staves =
      '<staffGrp symbol="brace" label="Harp"><staffDef n="1" trans.diat="-1" trans.semi="-2"/><staffDef n="2"/></staffGrp>';
    expect(
      pitches(read(meiScore(bar({ upper: note('c5', 2) + note('e5', 2, 'accid="f"') }), { staves }))),
    ).toBe('B♭4 D♭5');
  });

  it.each([
    ['trans.diat="0" trans.semi="12"', 'C6 E♭6'],
    ['trans.diat="7" trans.semi="12"', 'C6 E♭6'],
    ['trans.diat="-1" trans.semi="-14"', 'B♭3 D♭4'],
    ['trans.semi="-2"', 'B♭4 D♭5'],
  ])('finds the octave of a transposition of %s', (attributes, sounding) => {
    const staves = `<staffGrp symbol="brace" label="Harp"><staffDef n="1" ${attributes}/><staffDef n="2"/></staffGrp>`;
    const upper = note('c5', 2) + note('e5', 2, 'accid="f"');
    expect(pitches(read(meiScore(bar({ upper }), { staves })))).toBe(sounding);
  });

  it('takes a harmonic as written at the string, sounding an octave higher, and says so once', () => {
    const score = read(
      meiScore(bar({ upper: note('c4', 2, 'artic="harm"') + note('d4', 2, '', '<artic artic="harm"/>') })),
    );
    expect(pitches(score)).toBe('C5 D5');
    expect(score.notes[0]?.harmonic).toEqual({
      string: { letter: 'C', octave: 4, alter: 0 },
      notated: 'base-pitch',
      assumed: true,
    });
    expect(remarkCodes(score).filter((code) => code === 'harmonic-assumed')).toHaveLength(1);
  });

  it('takes the sounding octave of a harmonic from the file where it is stated', () => {
    const score = read(meiScore(bar({ upper: note('c4', 1, 'artic="harm" oct.ges="5"') })));
    expect(score.notes[0]?.pitch.octave).toBe(5);
    expect(score.notes[0]?.harmonic?.assumed).toBe(false);
  });
});

const skipped = (score: ReturnType<typeof read>): readonly string[] =>
  score.remarks.filter((each) => each.code === 'skipped').map((each) => each.message);

describe('ties', () => {
  const tied = (first: string, second: string, marks = ''): ReturnType<typeof read> =>
    read(meiScore(bar({ upper: first }) + bar({ upper: second, marks })));

  it('joins chords note by note by their tie attributes', () => {
    const score = tied(chord('c4 e4 g4', 1, 'tie="i"'), chord('c4 e4 a4', 1, 'tie="t"'));
    expect(score.notes.filter((each) => each.tiedFrom !== null).map((each) => each.pitch.letter)).toEqual([
      'C',
      'E',
    ]);
  });

  it('joins by elements that name ids, or timestamps and a staff', () => {
    const byId = tied(
      note('c4', 1, 'xml:id="a"'),
      note('c4', 1, 'xml:id="b"'),
      '<tie startid="#a" endid="#b"/>',
    );
    expect(noteById(byId, 'b').tiedFrom).toBe('a');
    const flow = bar({
      upper: note('c4', 1, 'xml:id="a"'),
      marks: '<tie staff="1" tstamp="1" tstamp2="1m+1"/>',
    });
    const byTime = read(meiScore(flow + bar({ upper: note('c4', 1, 'xml:id="b"') })));
    expect(noteById(byTime, 'b').tiedFrom).toBe('a');
  });

  it('does not join a note that only opens a tie of its own', () => {
    const score = tied(note('c4', 1, 'tie="i"'), note('c4', 1, 'tie="i"'));
    expect(score.notes[1]?.tiedFrom).toBeNull();
  });

  it('ties into a later ending from before the first one', () => {
    const ending = (n: number): string =>
      `<ending n="${n}">${bar({ upper: note('c4', 1, `tie="t" xml:id="e${n}"`) })}</ending>`;
    const before = bar({ upper: note('c4', 1, 'tie="i" xml:id="before"') });
    const score = read(meiScore(before + ending(1) + ending(2)));
    expect([1, 2].map((n) => noteById(score, `e${n}`).tiedFrom)).toEqual(['before', 'before']);
  });

  it('does not join notes that do not touch', () => {
    const score = tied(`${note('c4', 2, 'tie="i"')}<rest dur="2"/>`, note('c4', 1, 'tie="t"'));
    expect(score.notes[1]?.tiedFrom).toBeNull();
  });

  it('says of a tie whose lengths do not meet that they do not', () => {
    const early = tied(`${note('c4', 2, 'tie="i"')}<rest dur="2"/>`, note('c4', 1, 'tie="t"'));
    expect(skipped(early)).toEqual(['Not read: a tie whose first note ends before the second begins.']);
    const late = tied(
      `<layer n="1">${note('c4', 1, 'tie="i"')}</layer><layer n="2"><space dur="2"/>${note('c4', 2, 'tie="t"')}</layer>`,
      note('d4', 1),
    );
    expect(skipped(late)).toEqual([
      'Not read: a tie whose first note is still sounding when the second begins.',
    ]);
    const nowhere = tied(note('d4', 1, 'tie="i"'), note('c4', 1, 'tie="t"'));
    expect(skipped(nowhere)).toEqual(['Not read: the end of a tie that begins nowhere.']);
  });

  it('leads on from a printed note whose hidden double is tied, and holds it until then', () => {
    const layers = (n: number, music: string): string => `<layer n="${n}">${music}</layer>`;
    const score = tied(
      layers(1, `${note('c4', 4, 'xml:id="a"')}<rest dur="4"/><rest dur="2"/>`) +
        layers(2, note('c4', 1, 'visible="false" tie="i"')),
      note('c4', 1, 'tie="t" xml:id="b"'),
    );
    expect(noteById(score, 'b').tiedFrom).toBe('a');
    expect(noteById(score, 'a').duration).toEqual({ num: 4, den: 1 });
  });

  it('plucks anew where a tie changes the string, and says so', () => {
    const score = tied(
      note('c4', 1, 'accid="s" xml:id="a"'),
      note('d4', 1, 'accid="f" xml:id="b"'),
      '<tie startid="#a" endid="#b"/>',
    );
    expect(noteById(score, 'b').tiedFrom).toBeNull();
    expect(score.remarks.some((each) => each.message.includes('C♯4 to D♭4'))).toBe(true);
  });

  it('leaves a note marked l.v. to ring, by attribute or element', () => {
    const upper = note('c4', 2, 'lv="true"') + note('d4', 2, 'xml:id="d"');
    const score = read(meiScore(bar({ upper, lower: notes('c2', 1), marks: '<lv startid="#d"/>' })));
    expect(score.notes.map((each) => each.letRing)).toEqual([true, false, true]);
  });
});

describe('ornaments', () => {
  it('trills with the upper neighbour as key and bar have it', () => {
    const upper = note('f5', 2, 'accid="s"') + note('e5', 2, 'xml:id="e"');
    const score = read(meiScore(bar({ upper, marks: '<trill startid="#e"/>' })));
    expect(noteById(score, 'e').ornament).toEqual({
      kind: 'trill',
      upper: { letter: 'F', octave: 5, alter: 1 },
      lower: null,
    });
  });

  it('believes the accidental printed at a trill', () => {
    const score = read(
      meiScore(bar({ upper: note('c5', 1, 'xml:id="c"'), marks: '<trill startid="#c" accidupper="f"/>' })),
    );
    expect(noteById(score, 'c').ornament?.upper).toEqual({ letter: 'D', octave: 5, alter: -1 });
  });

  it('gives a mordent its lower neighbour unless the form says upper, and a turn both', () => {
    const upper = ['m', 'u', 't', 'o'].map((id) => note('c5', 4, `xml:id="${id}"`)).join('');
    const marks =
      '<mordent startid="#m"/><mordent startid="#u" form="upper"/><turn startid="#t" accidlower="s"/><ornam startid="#o"/>';
    const score = read(meiScore(bar({ upper, marks })));
    expect(['m', 'u', 't', 'o'].map((id) => noteById(score, id).ornament?.kind)).toEqual([
      'mordent',
      'inverted-mordent',
      'turn',
      'other',
    ]);
    expect(noteById(score, 'm').ornament).toMatchObject({ upper: null, lower: { letter: 'B', octave: 4 } });
    expect(noteById(score, 't').ornament).toMatchObject({
      upper: { letter: 'D' },
      lower: { letter: 'B', alter: 1 },
    });
  });

  it('puts an ornament over a chord on its highest note, by timestamp', () => {
    const score = read(
      meiScore(bar({ upper: `<rest dur="2"/>${chord('c5 e5', 2)}`, marks: '<trill staff="1" tstamp="3"/>' })),
    );
    expect(score.notes.map((each) => each.ornament?.kind ?? null)).toEqual([null, 'trill']);
  });
});

it('refuses an accidental that is none, with its line and column', () => {
  const text = meiScore(`\n${bar({ upper: note('c4', 1, 'accid="sharpish"') })}`);
  expect(readResult(text)).toMatchObject({
    ok: false,
    problem: { code: 'bad-value', what: 'accidental', value: 'sharpish', line: 2 },
  });
});

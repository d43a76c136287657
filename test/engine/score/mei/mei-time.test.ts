import { describe, expect, it } from 'vitest';
import { rationalKey } from '../../../../engine/music/rational.ts';
import { bar, chord, meiScore, note, noteById, notes, read, remarkCodes, timeline } from './mei-builder.ts';

const upper = (content: string): string => timeline(read(meiScore(bar({ upper: content }))));

describe('durations', () => {
  it('counts quarter notes, with dots', () => {
    expect(
      upper(note('c4', 4, 'dots="1"') + note('d4', 8) + note('e4', 4, 'dots="2"') + note('f4', 16)),
    ).toBe('0 C4, 3/2 D4, 2 E4, 15/4 F4');
  });

  it('reads breves and longs', () => {
    expect(upper(notes('c4 d4', 'breve') + notes('e4 f4', 'long'))).toBe('0 C4, 8 D4, 16 E4, 32 F4');
  });

  it('nests tuplets exactly', () => {
    const inner = `<tuplet num="5" numbase="4">${notes('c4 d4 e4 f4 g4', 16)}</tuplet>`;
    expect(upper(`<tuplet num="3" numbase="2">${inner}${notes('a4 b4', 4)}</tuplet>`)).toBe(
      '0 C4, 2/15 D4, 4/15 E4, 2/5 F4, 8/15 G4, 2/3 A4, 4/3 B4',
    );
  });

  it('shortens by a tuplet span between the notes it names, chords included', () => {
    const first = note('c4', 8, 'xml:id="a"') + note('d4', 8) + chord('e4 g4', 8, 'xml:id="z"');
    const marks = '<tupletSpan num="3" numbase="2" startid="#a" endid="#z"/>';
    expect(timeline(read(meiScore(bar({ upper: first + notes('f4', 4), marks }))))).toBe(
      '0 C4, 1/3 D4, 2/3 E4, 2/3 G4, 1 F4',
    );
  });

  it('reads a tuplet that states no ratio as a triplet and says so', () => {
    const content =
      ['i1', 'm1', 't1'].map((tuplet) => note('c4', 8, `tuplet="${tuplet}"`)).join('') + notes('d4', 4);
    const score = read(meiScore(bar({ upper: content })));
    expect(timeline(score)).toBe('0 C4, 1/3 C4, 2/3 C4, 1 D4');
    expect(remarkCodes(score)).toContain('alternative-chosen');
  });

  it('leaves lengths as written in a tuplet that states no numbers, and fills in a missing numbase', () => {
    expect(upper(`<tuplet>${notes('c4 d4 e4 f4', 16)}</tuplet>${notes('g4', 4)}`)).toBe(
      '0 C4, 1/4 D4, 1/2 E4, 3/4 F4, 1 G4',
    );
    expect(upper(`<tuplet num="5">${notes('c4 d4 e4 f4 g4', 16)}</tuplet>${notes('a4', 4)}`)).toContain(
      '4/5 G4, 1 A4',
    );
  });

  it('lets chord notes inherit the length and spaces and rests take time', () => {
    expect(upper(`<rest dur="4"/>${chord('c4 e4', 4)}<space dur="4"/>${notes('g4', 4)}`)).toBe(
      '1 C4, 1 E4, 3 G4',
    );
  });

  it('falls back on a default length, then on ticks', () => {
    const byDefault = meiScore(bar({ upper: note('c4', null) + note('d4', null) }), {
      definition: 'dur.default="2"',
    });
    expect(timeline(read(byDefault))).toBe('0 C4, 2 D4');
    const byTicks = meiScore(bar({ upper: note('c4', null, 'dur.ppq="144"') + note('d4', 4) }), {
      definition: 'ppq="96"',
    });
    expect(timeline(read(byTicks))).toBe('0 C4, 3/2 D4');
  });

  it('gives a two-note tremolo the time of one of its notes', () => {
    const score = read(
      meiScore(
        bar({
          upper: `<fTrem beams="3">${note('c4', 2, 'xml:id="a"')}${note('g4', 2, 'xml:id="b"')}</fTrem>${notes('e4', 2)}`,
        }),
      ),
    );
    expect(timeline(score)).toBe('0 C4, 1 G4, 2 E4');
    expect(noteById(score, 'a').tremolo).toEqual({ kind: 'between', marks: 3, pair: 'b' });
  });

  it('reads the strokes of a tremolo on one chord from its stem or its unit', () => {
    const score = read(
      meiScore(
        bar({
          upper: `<bTrem>${chord('c4 e4', 2, 'stem.mod="2slash"')}</bTrem><bTrem unitdur="32">${note('g4', 4)}</bTrem>${note('a4', 4, 'stem.mod="1slash"')}`,
        }),
      ),
    );
    expect(score.notes.map((each) => each.tremolo?.marks)).toEqual([2, 2, 3, 1]);
  });
});

describe('bars', () => {
  it('makes a pickup bar as long as its longest layer, in every staff', () => {
    const score = read(
      meiScore(bar({ upper: notes('g4', 4), attributes: 'metcon="false"' }) + bar({ upper: notes('c5', 1) })),
    );
    expect(score.bars.map((each) => rationalKey(each.onset))).toEqual(['0', '1']);
    expect(score.rests.map((each) => [each.staff, rationalKey(each.duration)])).toEqual([[2, '1'], [2, '4']]); // biome-ignore format: pairs
  });

  it('measures a bar the harp rests in by the other players', () => {
    const staves = '<staffGrp><staffDef n="1" label="Flute"/><staffDef n="2" label="Harp"/></staffGrp>';
    const flow =
      bar({ upper: notes('g5', 4), attributes: 'metcon="false"' }) + bar({ lower: notes('c3', 1) });
    expect(timeline(read(meiScore(flow, { staves })))).toBe('1 C3');
  });

  it('takes the meter for bars of rest, several in one for a multi-bar rest', () => {
    const flow = `${bar({})}<scoreDef meter.count="3" meter.unit="4"/>${bar({ upper: '<multiRest num="5"/>', lower: '<multiRest num="5"/>' })}${bar({ upper: notes('c4', 2) })}`;
    expect(read(meiScore(flow)).bars.map((each) => rationalKey(each.onset))).toEqual(['0', '4', '19']);
  });

  it('reads meters from elements, symbols and sums', () => {
    const flow = `<scoreDef><meterSig count="3+2" unit="8"/></scoreDef>${bar({})}<scoreDef meter.sym="cut"/>${bar({})}<scoreDef><meterSigGrp func="mixed"><meterSig count="2" unit="4"/><meterSig count="1" unit="8"/></meterSigGrp></scoreDef>${bar({ upper: notes('c4', 8) })}`;
    expect(read(meiScore(flow)).bars.map((each) => `${each.meter.beats}/${each.meter.beatUnit}`)).toEqual([
      '5/8',
      '2/2',
      '5/8',
    ]);
  });

  it('reads a meter that stands at the head of a layer for the bar it stands in', () => {
    const flow = bar({ upper: '<meterSig count="2" unit="4"/><mRest/>' }) + bar({ upper: notes('c4', 2) });
    expect(read(meiScore(flow)).bars.map((each) => rationalKey(each.onset))).toEqual(['0', '2']);
  });

  it('tells of a bar that holds too much', () => {
    const score = read(meiScore(bar({ upper: notes('c4 c4', 1) })));
    expect(score.remarks.find((each) => each.code === 'bar-overfull')?.barNumber).toBe('1');
    expect(rationalKey(score.bars[0]!.duration)).toBe('8');
  });
});

describe('grace notes', () => {
  it('take no time and stand before their note, in order', () => {
    const score = read(
      meiScore(
        bar({
          upper: `${notes('c4', 2)}<graceGrp grace="acc">${notes('d4 e4', 16)}</graceGrp>${notes('f4', 2)}`,
        }),
      ),
    );
    expect(timeline(score)).toBe('0 C4, 2 D4, 2 E4, 2 F4');
    expect(score.notes.map((each) => each.grace)).toEqual([
      null,
      { order: 0, slashed: false },
      { order: 1, slashed: false },
      null,
    ]);
  });

  it('are slashed where they take their time from the note before', () => {
    expect(
      read(meiScore(bar({ upper: note('d4', 8, 'grace="unacc"') + notes('c4', 1) }))).notes[0]?.grace
        ?.slashed,
    ).toBe(true);
  });

  it('at the end of a bar come before those of the next bar', () => {
    const flow =
      bar({ upper: notes('c4', 1) + note('d4', 16, 'grace="unacc"') }) +
      bar({ upper: note('e4', 16, 'grace="unacc"') + notes('f4', 1) });
    const score = read(meiScore(flow));
    expect(timeline(score)).toBe('0 C4, 4 D4, 4 E4, 4 F4');
    expect(score.notes.map((each) => each.grace?.order ?? null)).toEqual([null, 0, 1, null]);
  });
});

describe('repeat signs within the music', () => {
  it('plays the bar before again, at its own time, with ids of its own and the place of the sign', () => {
    const text = meiScore(
      bar({ upper: note('c4', 2, 'xml:id="a"') + note('d4', 2) }) + bar({ upper: '<mRpt xml:id="again"/>' }),
    );
    const score = read(text);
    expect(timeline(score)).toBe('0 C4, 2 D4, 4 C4, 6 D4');
    const copy = noteById(score, 'a-r1');
    expect(text.slice(copy.span.start, copy.span.end)).toBe('<mRpt xml:id="again"/>');
  });

  it('keeps accidentals, ties and chords of what it repeats', () => {
    const first = note('f4', 2, 'accid="s" tie="i" xml:id="a"') + note('f4', 2, 'tie="t" xml:id="b"');
    const score = read(meiScore(bar({ upper: first }) + bar({ upper: '<mRpt/>' })));
    expect(score.notes.map((each) => each.pitch.alter)).toEqual([1, 1, 1, 1]);
    expect(noteById(score, 'b-r1').tiedFrom).toBe('a-r1');
  });

  it('plays again what was under an ottava as it sounded', () => {
    const marks = '<octave staff="1" dis="8" dis.place="above" tstamp="1" tstamp2="0m+1"/>';
    const flow = bar({ upper: notes('c4', 1), marks }) + bar({ upper: '<mRpt/>' });
    expect(timeline(read(meiScore(flow)))).toBe('0 C5, 4 C5');
  });

  it('plays all voices of a staff again where the sign stands alone, else its own', () => {
    const voices = (second: string): string =>
      `<layer n="1">${notes('c5', 1)}</layer><layer n="2">${notes(second, 1)}</layer>`;
    const alone = bar({ upper: voices('c4') }) + bar({ upper: '<mRpt/>' });
    expect(timeline(read(meiScore(alone)))).toBe('0 C5, 0 C4, 4 C5, 4 C4');
    const own = `<layer n="1"><mRpt/></layer><layer n="2">${notes('d4', 1)}</layer>`;
    expect(timeline(read(meiScore(bar({ upper: voices('c4') }) + bar({ upper: own }))))).toBe(
      '0 C5, 0 C4, 4 C5, 4 D4',
    );
  });

  it('plays two bars again, sign by sign or over an empty second bar', () => {
    const two = bar({ upper: notes('c4', 1) }) + bar({ upper: notes('d4', 1) });
    const signs = bar({ upper: '<mRpt2/>' });
    expect(timeline(read(meiScore(two + signs + bar({ upper: '<mSpace/>' }))))).toBe(
      '0 C4, 4 D4, 8 C4, 12 D4',
    );
    expect(
      timeline(
        read(meiScore(two + bar({ upper: '<multiRpt num="2"/>' }) + bar({ upper: '<multiRpt num="2"/>' }))),
      ),
    ).toBe('0 C4, 4 D4, 8 C4, 12 D4');
  });

  it('plays beats and half bars again', () => {
    expect(upper(`${notes('c4 d4', 8)}<beatRpt/><beatRpt/>${notes('e4', 4)}`)).toBe(
      '0 C4, 1/2 D4, 1 C4, 3/2 D4, 2 C4, 5/2 D4, 3 E4',
    );
    expect(upper(`${notes('c4 d4', 4)}<halfmRpt/>`)).toBe('0 C4, 1 D4, 2 C4, 3 D4');
  });

  it('tells of a sign that has nothing to repeat', () => {
    const score = read(meiScore(bar({ upper: '<mRpt/>', lower: notes('c3', 1) })));
    expect(remarkCodes(score)).toContain('skipped');
  });
});

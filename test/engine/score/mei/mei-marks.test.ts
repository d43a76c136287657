import { describe, expect, it } from 'vitest';
import { rationalKey } from '../../../../engine/music/rational.ts';
import { bar, chord, meiScore, note, notes, read, readResult, remarkCodes, timeline } from './mei-builder.ts';

describe('pedal markings in the file', () => {
  const markings = (marks: string) =>
    read(meiScore(bar({ upper: note('c4', 1, 'xml:id="c"'), marks }))).markings;

  it('holds all seven pedals of a diagram: a letter left out is natural', () => {
    // MEI Guidelines, Harp Pedals: the example cmn-sample155 leaves out D, F, G and A.
    expect(markings('<harpPedal startid="#c" c="s" b="f" e="f"/>')[0]).toMatchObject({
      form: 'harp-pedals',
      positions: { D: 0, C: 1, B: -1, E: -1, F: 0, G: 0, A: 0 },
    });
  });

  it('reads words that name pedals, over changes of typeface and with music glyphs', () => {
    const words =
      '<dir staff="1" tstamp="2"><rend fontstyle="italic">préparez</rend> mi<symbol glyph.name="accidentalFlat"/> fa&#xE262;</dir>';
    expect(markings(words)).toMatchObject([
      { form: 'words', positions: { E: -1, F: 1 }, ahead: true, at: { num: 1, den: 1 } },
    ]);
  });

  it('passes by other words, and those at other players', () => {
    expect(markings('<dir staff="1" tstamp="1">dolce</dir><dir staff="1" tstamp="1">A</dir>')).toEqual([]);
    expect(markings('<dir staff="7" tstamp="1">E♭</dir>')).toEqual([]);
  });

  it('tells words that name pedals but cannot be read', () => {
    const remarks = (words: string) =>
      read(
        meiScore(bar({ upper: notes('c4', 1), marks: `<dir staff="1" tstamp="1">${words}</dir>` })),
      ).remarks.filter(({ message }) => message.includes('pedals'));
    expect(remarks('E♭ Fx A♮')).toEqual([
      {
        code: 'skipped',
        barNumber: '1',
        barName: '1',
        message: 'Not read: words that seem to name pedals, “E♭ Fx A♮”.',
      },
    ]);
    expect([remarks('E nat, F♯'), remarks('dolce')]).toEqual([[], []]);
    // A table of levers is for no pedals.
    expect(remarks('Tuning E♭ major&#10;Levers up: F♯4, A♮4, B♮4, C♯5, E♮5')).toEqual([]);
  });

  it('reads a setting over two lines, and bare German names beside others', () => {
    const dirs = (...texts: readonly string[]) =>
      markings(texts.map((text) => `<dir staff="1" tstamp="1">${text}</dir>`).join(''));
    expect(dirs('D C B', 'E♭ F G A♭')).toMatchObject([
      { positions: { E: -1, A: -1 } },
      { positions: { D: 0, C: 0, B: 0 } },
    ]);
    expect(dirs('Es', 'H')).toMatchObject([{ positions: { E: -1 } }, { positions: { B: 0 } }]);
  });

  it('refuses a pedal position that is none', () => {
    const text = meiScore(bar({ upper: notes('c4', 1), marks: '<harpPedal tstamp="1" a="x"/>' }));
    expect(readResult(text)).toMatchObject({
      ok: false,
      problem: { code: 'bad-value', what: 'pedal position of A' },
    });
  });
});

describe('what the hands do', () => {
  it('breaks the chord an arpeggio names, in the order it says; nonarp asks for all together', () => {
    const upper = ['up', 'down', 'nonarp', 'plain'].map((id) => chord('c4 e4', 4, `xml:id="${id}"`)).join('');
    const marks = ['up', 'down', 'nonarp']
      .map((order) => `<arpeg startid="#${order}" order="${order}"/>`)
      .join('');
    const score = read(meiScore(bar({ upper, marks: `${marks}<arpeg plist="#plain"/>` })));
    expect(score.notes.map((each) => each.arpeggio)).toEqual([
      'up',
      'up',
      'down',
      'down',
      'none',
      'none',
      'plain',
      'plain',
    ]);
  });

  it('breaks the chords of both staves at a timestamp', () => {
    const score = read(
      meiScore(
        bar({ upper: chord('c5 e5', 1), lower: chord('c3 g3', 1), marks: '<arpeg staff="1 2" tstamp="1"/>' }),
      ),
    );
    expect(score.notes.map((each) => each.arpeggio)).toEqual(['plain', 'plain', 'plain', 'plain']);
  });

  it('sweeps from note to note, by element or attribute', () => {
    const byElement = read(
      meiScore(
        bar({
          upper: note('c4', 2, 'xml:id="a"') + note('c6', 2, 'xml:id="b"'),
          marks: '<gliss startid="#a" endid="#b"/>',
        }),
      ),
    );
    expect(byElement.sweeps).toMatchObject([
      { kind: 'glissando', from: 'a', to: 'b', start: { num: 0 }, end: { num: 2 } },
    ]);
    const content = ['i', 'm', 't']
      .map((gliss, n) => note('c4', 4, `gliss="${gliss}" xml:id="g${n}"`))
      .join('');
    expect(read(meiScore(bar({ upper: content }))).sweeps.map((each) => `${each.from}-${each.to}`)).toEqual([
      'g0-g1',
      'g1-g2',
    ]);
  });

  it('ends a glissando at its terminal note', () => {
    const content = ['i', 't', 't'].map((gliss) => note('c4', 4, `gliss="${gliss}"`)).join('');
    expect(read(meiScore(bar({ upper: content }))).sweeps).toHaveLength(1);
  });

  it('stills strings where a note with a damping sign ends', () => {
    const score = read(
      meiScore(bar({ upper: note('c4', 4, 'artic="damp"') + note('d4', 4, '', '<artic artic="dampall"/>') })),
    );
    expect(score.damps).toEqual([
      { at: { num: 1, den: 1 }, kind: 'damp', staff: 1 },
      { at: { num: 2, den: 1 }, kind: 'damp-all', staff: null },
    ]);
  });

  it('puts a cross-staff note on the staff it is printed on', () => {
    const score = read(meiScore(bar({ upper: note('c4', 2, 'staff="2"') + note('d4', 2) })));
    expect(score.notes.map((each) => each.staff)).toEqual([2, 1]);
  });

  it('tells cue and hidden notes from played ones, and drops a hidden double', () => {
    const upper = `<layer n="1">${note('c4', 2)}${note('d4', 2, 'visible="false"')}</layer><layer n="2">${note('c4', 2, 'visible="false"')}${note('e4', 2, 'cue="true"')}</layer>`;
    const score = read(meiScore(bar({ upper })));
    expect(score.notes.map((each) => `${each.pitch.letter} ${each.role}`)).toEqual([
      'C played',
      'D hidden',
      'E cue',
    ]);
    expect(score.remarks.some((each) => each.message.includes('double printed ones'))).toBe(true);
  });
});

it('makes ids of its own where those of the file are missing or not unique', () => {
  const text = meiScore(bar({ upper: note('c4', 2, 'xml:id="a"') + note('d4', 2, 'xml:id="a"') }));
  expect(read(text).notes.map((each) => each.id)).toEqual(
    [text.indexOf('<note pname="c"'), text.indexOf('<note pname="d"')].map((offset) => `n${offset}`),
  );
});

describe('tempo and landmarks', () => {
  const tempi = (definition: string, marks: string) =>
    read(meiScore(bar({ upper: notes('c4', 1), marks }), { definition })).tempo.map(
      (each) => `${rationalKey(each.at)} ${each.quartersPerMinute} ${each.origin}`,
    );

  it('counts the metronome in its unit, by default the meter', () => {
    expect(tempi('', '<tempo tstamp="1" mm="60" mm.unit="4" mm.dots="1"/>')).toEqual(['0 90 metronome']);
    expect(tempi('meter.count="6" meter.unit="8"', '<tempo tstamp="1" mm="120"/>')).toEqual([
      '0 60 metronome',
    ]);
  });

  it('reads played tempi, also from definitions', () => {
    expect(tempi('midi.bpm="72"', '<tempo tstamp="3" midi.mspb="500000"/>')).toEqual([
      '0 72 sound',
      '2 120 sound',
    ]);
  });

  it('lets the last of two marks at one time hold', () => {
    expect(tempi('', '<tempo tstamp="1" midi.bpm="72"/><tempo tstamp="1" midi.bpm="58"/>')).toEqual([
      '0 58 sound',
    ]);
  });

  it.each([
    ['Allegro animato ♩ = 116', 116],
    ['Andante (<rend fontfam="smufl">&#xE1D5;</rend>. = 60)', 90],
    ['<rend>All° animato </rend><rend fontfam="Palatino">q</rend><rend> = 116</rend>', 116],
    ['Largo h = ca. 40', 80],
    ['♪=96–104', 48],
  ])('reads a tempo in words with its note value: %s', (words, quarters) => {
    expect(tempi('', `<tempo tstamp="1">${words}</tempo>`)).toEqual([`0 ${quarters} metronome`]);
  });

  it.each(['Andante 72', '♩ = ♩', 'Eq = 60', 'No. 12', '1 = 60', 'q = 1/2'])(
    'takes no tempo from words that do not say it for certain: %s',
    (words) => {
      expect(tempi('', `<tempo tstamp="1">${words}</tempo>`)).toEqual(['0 96 assumed']);
    },
  );

  it('goes by what is to sound, and by figures of its own, before its words', () => {
    expect(tempi('', '<tempo tstamp="1" midi.bpm="72">♩ = 60</tempo>')).toEqual(['0 72 metronome']);
    expect(tempi('', '<tempo tstamp="1" mm="80" mm.unit="4">♩ = 60</tempo>')).toEqual(['0 80 metronome']);
  });

  it('assumes 96 until the first stated tempo, and says so', () => {
    const score = read(
      meiScore(
        bar({
          upper: notes('c4', 1),
          marks:
            '<tempo tstamp="3" mm="60">Lento (<rend fontfam="smufl">&#xE1D5;</rend> = 60)</tempo><reh tstamp="1">A</reh>',
        }),
      ),
    );
    expect(score.tempo.map((each) => each.quartersPerMinute)).toEqual([96, 60]);
    expect(remarkCodes(score)).toContain('tempo-assumed');
    expect(score.landmarks.map((each) => `${each.kind} ${each.text}`)).toEqual([
      'rehearsal A',
      'tempo Lento',
    ]);
  });
});

describe('finding the harp', () => {
  it('takes the first named harp of a score, with its staves', () => {
    const staves =
      '<staffGrp><staffDef n="1"><label>Harpsichord</label></staffDef><staffGrp symbol="brace" xml:id="hp"><label>Harfe</label><staffDef n="2"/><staffDef n="3"/></staffGrp></staffGrp>';
    const flow = `<measure n="1"><staff n="1"><layer>${notes('c4', 1)}</layer></staff><staff n="2"><layer>${notes('d4', 1)}</layer></staff><staff n="3"><layer>${notes('e3', 1)}</layer></staff></measure>`;
    const score = read(meiScore(flow, { staves }));
    expect(score.harp).toEqual({
      partIds: ['hp'],
      name: 'Harfe',
      players: 1,
      staves: 2,
      meiStaves: ['2', '3'],
    });
    expect(timeline(score)).toBe('0 D4, 0 E3');
    expect(score.parts.map((part) => `${part.name} ${part.notes}`)).toEqual(['Harpsichord 1', 'Harfe 2']);
  });

  it('knows the harp by its sound, program 46 counted from 0', () => {
    const staves =
      '<staffGrp><staffDef n="1" label="Instr. 1"/><staffDef n="2" label="Instr. 2"><instrDef midi.instrnum="46"/></staffDef></staffGrp>';
    expect(
      read(meiScore(bar({ upper: notes('c4', 1), lower: notes('d3', 1) }), { staves })).harp.meiStaves,
    ).toEqual(['2']);
  });

  it('keeps players apart whose staves stand in nested groups', () => {
    const inner = (n: number, name: string): string =>
      `<staffGrp xml:id="p${n}"><label>${name}</label><staffDef n="${n}"/></staffGrp>`;
    const staves = `<staffGrp><staffGrp>${inner(1, 'Viola')}${inner(2, 'Harp')}</staffGrp></staffGrp>`;
    const score = read(meiScore(bar({ upper: notes('c4', 1), lower: notes('d3', 1) }), { staves }));
    expect(score.parts.map((part) => part.id)).toEqual(['p1', 'p2']);
    expect(timeline(score)).toBe('0 D3');
  });

  it('gives a staff without a label to the named staff above it in one brace', () => {
    const staves =
      '<staffGrp symbol="brace"><staffDef n="1"><label>Harp I</label></staffDef><staffDef n="2"><label> </label></staffDef><staffDef n="3"><label>Harp II</label></staffDef><staffDef n="4" label=""/></staffGrp>';
    const score = read(meiScore(bar({ upper: notes('c4', 1), lower: notes('d3', 1) }), { staves }));
    expect(score.harp).toMatchObject({ name: 'Harp I', staves: 2, meiStaves: ['1', '2'] });
    expect(score.parts.map(({ name, staves: count }) => `${name} ${count}`)).toEqual([
      'Harp I 2',
      'Harp II 2',
    ]);
    expect(timeline(score)).toBe('0 C4, 0 D3');
  });

  it('gives a staff without a label at the top of a brace to the first named one', () => {
    const staves =
      '<staffGrp><staffDef n="3" label="Flute"/><staffGrp symbol="brace"><staffDef n="1"/><staffDef n="2" label="Harp"/></staffGrp></staffGrp>';
    const score = read(meiScore(bar({ upper: notes('c4', 1), lower: notes('d3', 1) }), { staves }));
    expect(score.harp.meiStaves).toEqual(['1', '2']);
  });

  it('a brace in which every staff has a name of its own is of as many players', () => {
    const staves =
      '<staffGrp symbol="brace"><staffDef n="1" label="Harp"/><staffDef n="2" label="Celesta"/></staffGrp>';
    const score = read(meiScore(bar({ upper: notes('c4', 1), lower: notes('d3', 1) }), { staves }));
    expect(score.harp.meiStaves).toEqual(['1']);
  });

  it('reads a bar without a staff of the part as silence as long as the bar', () => {
    const flow = `${bar({ upper: notes('c4', 1) })}<measure n="2"/>${bar({ upper: notes('d4', 1) })}`;
    expect(timeline(read(meiScore(flow)))).toBe('0 C4, 8 D4');
  });

  it('lists the parts where none is a harp', () => {
    const staves = '<staffGrp><staffDef n="1" label="Flute"/><staffDef n="2" label="Oboe"/></staffGrp>';
    expect(readResult(meiScore(bar({ upper: notes('c4', 1) }), { staves }))).toMatchObject({
      ok: false,
      problem: {
        code: 'harp-not-found',
        parts: [
          { name: 'Flute', notes: 1 },
          { name: 'Oboe', notes: 0 },
        ],
      },
    });
  });

  it('refuses a harp part without notes', () => {
    expect(readResult(meiScore(bar({})))).toMatchObject({ ok: false, problem: { code: 'no-notes' } });
  });
});

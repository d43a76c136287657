import { describe, expect, it } from 'vitest';
import type { Score } from '../../../../engine/score/model/score.ts';
import {
  backup,
  buildScore,
  direction,
  note,
  quarters,
  readHarp,
  readScore,
  remarkCodes,
  words,
} from './musicxml-builder.ts';

const tempi = (score: Score): readonly string[] =>
  score.tempo.map((each) => `${quarters(each.at)}: ${each.quartersPerMinute} ${each.origin}`);

const metronome = (content: string): string => direction(`<metronome>${content}</metronome>`);

const perMinute = (unit: string, rate: string): string =>
  metronome(`<beat-unit>${unit}</beat-unit><per-minute>${rate}</per-minute>`);

describe('tempo', () => {
  it('is assumed where the score states none, and a remark says so', () => {
    const score = readHarp(note('C4', 4));
    expect(tempi(score)).toEqual(['0: 96 assumed']);
    expect(remarkCodes(score)).toContain('tempo-assumed');
  });

  it('is assumed only until the first tempo that is stated', () => {
    expect(tempi(readHarp(note('C4', 4), `<sound tempo="60"/>${note('D4', 4)}`))).toEqual([
      '0: 96 assumed',
      '4: 60 sound',
    ]);
  });

  it('counts the beat of a metronome mark: a dotted quarter = 40 is sixty quarters', () => {
    const dotted = metronome('<beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>c. 40</per-minute>');
    expect(tempi(readHarp(dotted + note('C4', 4)))).toEqual(['0: 60 metronome']);
    expect(tempi(readHarp(perMinute('half', '50') + note('C4', 4)))).toEqual(['0: 100 metronome']);
  });

  it('that is to sound goes before that which is printed', () => {
    const both = `<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>80</per-minute></metronome></direction-type><sound tempo="72"/></direction>`;
    expect(tempi(readHarp(both + note('C4', 4)))).toEqual(['0: 72 metronome']);
    const apart = `${perMinute('quarter', '80')}<sound tempo="72"/>`;
    expect(tempi(readHarp(apart + note('C4', 4)))).toEqual(['0: 72 metronome']);
  });

  it('that a part states last for a moment holds, and the first part goes before the others', () => {
    const twice = `<sound tempo="60"/>${words('Lento', '<sound tempo="40"/>')}${note('C4', 4)}`;
    expect(tempi(readHarp(twice))).toEqual(['0: 40 sound']);
    const other = `<sound tempo="90"/>${note('C4', 4)}`;
    const parts = [twice, other].map((bar, index) => ({ id: `P${index}`, name: 'Harp', bars: [bar] }));
    expect(tempi(readScore(buildScore(parts), 'P0'))).toEqual(['0: 40 sound']);
  });

  it('changes with a metric modulation: the old quarter becomes the new half', () => {
    const change = metronome('<beat-unit>quarter</beat-unit><beat-unit>half</beat-unit>');
    const score = readHarp(perMinute('quarter', '60') + note('C4', 4), change + note('D4', 4));
    expect(tempi(score)).toEqual(['0: 60 metronome', '4: 120 metronome']);
  });

  it('is taken once from parts that repeat it, in the middle of a bar too', () => {
    const music = `<sound tempo="60"/>${note('C4', 2)}<sound tempo="80"/>${note('C4', 2)}`;
    const parts = ['Flute', 'Harp'].map((name, index) => ({ id: `P${index}`, name, bars: [music] }));
    expect(tempi(readScore(buildScore(parts)))).toEqual(['0: 60 sound', '2: 80 sound']);
  });

  it('moves by an offset only if that is meant for sound', () => {
    const at = (offset: string): string =>
      `<direction><direction-type><words>Lento</words></direction-type>${offset}<sound tempo="50"/></direction>`;
    const start = '<sound tempo="60"/>';
    expect(tempi(readHarp(start + note('C4', 2) + at('<offset>240</offset>') + note('C4', 2)))[1]).toBe(
      '2: 50 sound',
    );
    expect(
      tempi(readHarp(start + note('C4', 2) + at('<offset sound="yes">240</offset>') + note('C4', 2)))[1],
    ).toBe('3: 50 sound');
  });

  it('of nought or of no number is passed over, with a remark', () => {
    const score = readHarp(`<sound tempo="0"/><sound tempo="quick"/>${note('C4', 4)}`);
    expect(tempi(score)).toEqual(['0: 96 assumed']);
    expect(score.remarks.filter((each) => each.code === 'skipped')).toHaveLength(2);
  });
});

describe('landmarks', () => {
  it('are rehearsal marks of any part, and words that bring a tempo', () => {
    const flute = `${direction('<rehearsal>A</rehearsal>')}${words('Lento', '<sound tempo="50"/>')}${note('A5', 4)}`;
    const score = readScore(
      buildScore([
        { id: 'P1', name: 'Flute', bars: [note('A5', 4), flute] },
        {
          id: 'P2',
          name: 'Harp',
          bars: [note('C4', 4), direction('<rehearsal>A</rehearsal>') + note('C4', 4)],
        },
      ]),
    );
    expect(score.landmarks.map((each) => [each.kind, each.text, quarters(each.at), each.bar])).toEqual([
      ['rehearsal', 'A', '4', 1],
      ['tempo', 'Lento', '4', 1],
    ]);
  });

  it('are not the words for a gradual change', () => {
    expect(readHarp(words('rit.', '<sound tempo="50"/>') + note('C4', 4)).landmarks).toEqual([]);
  });
});

describe('pedal markings in the file', () => {
  const tuning = (step: string, alter: string): string =>
    `<pedal-tuning><pedal-step>${step}</pedal-step><pedal-alter>${alter}</pedal-alter></pedal-tuning>`;

  it('are read from a diagram, whole or in part', () => {
    const score = readHarp(
      note('C4', 2) +
        direction(`<harp-pedals>${tuning('E', '-1')}${tuning('F', '1')}</harp-pedals>`) +
        note('C4', 2),
    );
    expect(score.markings).toHaveLength(1);
    const [marking] = score.markings;
    expect([marking!.form, quarters(marking!.at), marking!.text]).toEqual(['harp-pedals', '2', 'E♭ F♯']);
    expect(marking!.positions).toEqual({ E: -1, F: 1 });
  });

  it('that no pedal can give are told', () => {
    const score = readHarp(
      direction(`<harp-pedals>${tuning('E', '2')}${tuning('F', '1')}</harp-pedals>`) + note('C4', 4),
    );
    expect(score.markings[0]!.positions).toEqual({ F: 1 });
    expect(score.remarks.some((each) => each.message.includes('no pedal gives'))).toBe(true);
  });

  it('are read from note names in words, also where the accidental is an element of its own', () => {
    const split = direction('<words>E</words><words font-family="music">♭</words>');
    const symbol = direction('<words>F</words><symbol>accidentalSharp</symbol>');
    const score = readHarp(split + symbol + note('C4', 4));
    expect(score.markings.map((each) => each.positions)).toEqual([{ E: -1 }, { F: 1 }]);
  });

  it('that name pedals but cannot be read are told with their bar, other words are not', () => {
    const told = (...texts: readonly string[]) =>
      readHarp(
        direction(texts.map((text) => `<words>${text}</words>`).join('')) + note('C4', 4),
      ).remarks.filter(({ message }) => message.includes('pedals'));
    expect(told('E♭  Fx A♮')).toEqual([
      {
        code: 'skipped',
        barNumber: '1',
        barName: '1',
        message: 'These words seem to name pedals, but are not understood and are ignored: “E♭ Fx A♮”.',
      },
    ]);
    expect(told('E♭ F♯', 'Ax D♮')).toMatchObject([
      { message: 'Only some of these words, which seem to name pedals, are understood: “E♭ F♯ Ax D♮”.' },
    ]);
    expect([told('E nat, F♯'), told('E♭', 'dolce'), told('B♭ major')]).toEqual([[], [], []]);
    // A table of levers is for no pedals.
    expect(told('Tuning E♭ major&#10;Levers up: F♯4, A♮4, B♮4, C♯5, E♮5')).toEqual([]);
  });

  it('that cannot be read keep their place and their words', () => {
    const score = readHarp(note('C4', 4), words('E♭♭') + note('C4', 4));
    expect(score.unreadWords).toMatchObject([{ at: { num: 4 }, bar: 1, text: 'E♭♭' }]);
  });

  it('spell out a setting over two lines, each in a text of its own', () => {
    const score = readHarp(words('D C B') + words('E♭ F G A♭') + note('C4', 4));
    expect(score.markings.map(({ positions }) => positions)).toEqual([
      { E: -1, F: 0, G: 0, A: -1 },
      { D: 0, C: 0, B: 0 },
    ]);
    expect(score.unreadWords).toEqual([]);
    const lone = readHarp(words('D C B') + words('E♭') + note('C4', 4));
    expect(lone.markings).toHaveLength(1);
    expect(lone.unreadWords).toMatchObject([{ text: 'D C B' }]);
  });

  it('are naturals without a sign where the others are German', () => {
    const german = readHarp(
      words('Es') + note('C4', 4),
      words('E') + note('C4', 4),
      words('H') + note('C4', 4),
    );
    expect(german.markings.map(({ positions }) => positions)).toEqual([{ E: -1 }, { E: 0 }, { B: 0 }]);
    expect(readHarp(words('E♭') + note('C4', 4), words('E') + note('C4', 4)).markings).toHaveLength(1);
  });

  it('to be prepared ahead of need say so', () => {
    const score = readHarp(words('préparez mi ♮ sol ♭') + note('C4', 4));
    expect(score.markings.map((each) => [each.ahead, each.positions])).toEqual([[true, { E: 0, G: -1 }]]);
  });

  it('stand where they are printed: their offset counts', () => {
    const moved = words('E♭', '<offset>-240</offset>');
    expect(quarters(readHarp(note('C4', 2) + moved + note('C4', 2)).markings[0]!.at)).toBe('1');
  });

  it('are not letters for rehearsal, nor words in other parts', () => {
    const score = readScore(
      buildScore([
        { id: 'P1', name: 'Flute', bars: [words('B♭') + note('A5', 4)] },
        {
          id: 'P2',
          name: 'Harp',
          bars: [words('A') + direction('<rehearsal>C♯</rehearsal>') + note('C4', 4)],
        },
      ]),
    );
    expect(score.markings).toEqual([]);
  });
});

describe('damping', () => {
  it('stills one staff or all strings', () => {
    const score = readHarp(
      note('C4', 2) +
        direction('<damp/>', '<staff>2</staff>') +
        note('D4', 2) +
        backup(4) +
        note('C3', 4, { staff: 2, voice: '2' }),
      direction('<damp-all/>') + note('C4', 4),
    );
    expect(score.damps.map((each) => [quarters(each.at), each.kind, each.staff])).toEqual([
      ['2', 'damp', 2],
      ['4', 'damp-all', null],
    ]);
  });
});

it('chord symbols and bends are passed over by name and bar', () => {
  const harmony = '<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>';
  const score = readHarp(
    note('C4', 4),
    harmony + note('C4', 4, { notations: '<technical><bend><bend-alter>1</bend-alter></bend></technical>' }),
  );
  const skipped = score.remarks.filter((each) => each.code === 'skipped');
  expect(skipped.map((each) => each.barNumber)).toEqual(['2', '2']);
  expect(skipped.map((each) => each.message).join(' ')).toMatch(/Chord symbols.*bend/u);
});

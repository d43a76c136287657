import { describe, expect, it } from 'vitest';
import type { Score } from '../../../../engine/score/model/score.ts';
import {
  BACKWARD,
  backup,
  bar,
  barline,
  buildHarp,
  buildScore,
  FORWARD,
  note,
  noteNamed,
  onsets,
  pitches,
  quarters,
  readHarp,
  readScore,
  remarkCodes,
  rest,
} from './musicxml-builder.ts';

const meter = (beats: string, unit: string): string =>
  `<time><beats>${beats}</beats><beat-type>${unit}</beat-type></time>`;

const lengths = (score: Score): readonly string[] => score.bars.map((each) => quarters(each.duration));

describe('the length of a bar', () => {
  it('is that of its longest voice, so that an upbeat is short', () => {
    const score = readHarp(note('G4'), note('C4', 4) + backup(4) + note('E3', 2, { voice: '2' }));
    expect(lengths(score)).toEqual(['1', '4']);
    expect(score.bars.map((each) => quarters(each.onset))).toEqual(['0', '1']);
  });

  it('is the metre where the bar is empty', () => {
    const score = readHarp(bar(note('C4', 3), { attributes: meter('3', '4') }), '', note('D4', 3));
    expect(lengths(score)).toEqual(['3', '3', '3']);
    expect(onsets(score)).toEqual(['0', '6']);
  });

  it('is that of the other parts where the harp’s bar is empty or unfinished, as far as the metre goes', () => {
    const flute = { id: 'P1', name: 'Flute', bars: [note('G4'), note('C5', 4), note('C5', 6)] };
    const harp = { id: 'P2', name: 'Harp', bars: ['', note('C4', 1), note('D4', 1)] };
    expect(lengths(readScore(buildScore([flute, harp])))).toEqual(['1', '4', '4']);
  });

  it('past the metre is told, and kept', () => {
    const score = readHarp(note('C4', 5), note('D4', 4));
    expect(lengths(score)).toEqual(['5', '4']);
    expect(
      score.remarks.filter((each) => each.code === 'bar-overfull').map((each) => each.barNumber),
    ).toEqual(['1']);
  });

  it('is free without metre', () => {
    const free = bar(note('C4', 7), { attributes: '<time><senza-misura/></time>' });
    const score = readHarp(free, bar(note('D4', 4), { attributes: meter('4', '4') }));
    expect(lengths(score)).toEqual(['7', '4']);
    expect(remarkCodes(score)).not.toContain('bar-overfull');
  });
});

describe('signatures', () => {
  it('hold from their bar on', () => {
    const score = readHarp(
      bar(note('C4', 4), { attributes: `<key><fifths>-3</fifths></key>${meter('4', '4')}` }),
      note('C4', 4),
      bar(note('C4', 3), { attributes: `<key><fifths>1</fifths></key>${meter('6', '8')}` }),
    );
    expect(score.bars.map((each) => each.keyFifths)).toEqual([-3, -3, 1]);
    expect(score.bars.map((each) => each.meter)).toEqual([
      { beats: 4, beatUnit: 4 },
      { beats: 4, beatUnit: 4 },
      { beats: 6, beatUnit: 8 },
    ]);
  });

  it('add up the parts of a metre', () => {
    const sum = readHarp(bar(note('C4', 2.5), { attributes: meter('3+2', '8') }));
    expect(sum.bars[0]!.meter).toEqual({ beats: 5, beatUnit: 8 });
    const two =
      '<time><beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type></time>';
    expect(readHarp(bar(note('C4', 3.5), { attributes: two })).bars[0]!.meter).toEqual({
      beats: 7,
      beatUnit: 8,
    });
  });

  it('a metre that stands inside a bar holds for the next', () => {
    const late = `<attributes>${meter('3', '4')}</attributes>`;
    const score = readHarp(note('C4', 4) + late, note('D4', 3));
    expect(score.bars.map((each) => each.meter.beats)).toEqual([4, 3]);
  });

  it('that come late in a bar hold for the next', () => {
    const late = '<attributes><key><fifths>4</fifths></key></attributes>';
    const score = readHarp(note('C4', 4) + late, note('D4', 4));
    expect(score.bars.map((each) => each.keyFifths)).toEqual([0, 4]);
  });
});

describe('numbers and ids of bars', () => {
  it('are as printed; a bar that is not counted is part of the one before', () => {
    const score = readHarp(
      bar(note('C4'), { number: '0', more: ' implicit="yes"' }),
      bar(note('C4', 4), { number: '12a', more: ' id="m12a"' }),
      bar(note('C4', 4), { number: 'X1', more: ' implicit="yes"' }),
    );
    expect(score.bars.map((each) => each.number)).toEqual(['0', '12a', '12a']);
    expect(score.bars[1]!.id).toBe('m12a');
    expect(score.bars[0]!.id).toBe(`b${score.bars[0]!.span.start}`);
  });

  it('name the bar’s element in the text', () => {
    const xml = buildHarp(note('C4', 4), note('D4', 4));
    const { span } = readScore(xml).bars[1]!;
    expect(xml.slice(span.start, span.end)).toBe(bar(note('D4', 4))(1));
  });
});

describe('a harp of two parts', () => {
  const twoHands = (): string =>
    buildScore([
      { id: 'P1', name: 'Flute', bars: [note('A5', 4), note('A5', 4)] },
      { id: 'P2', name: 'Harp RH', bars: [note('C5', 4), note('E5', 4)] },
      { id: 'P3', name: 'Harp LH', bars: [note('C3', 4), note('E3', 4)] },
    ]);

  it('is read as one: right hand above left', () => {
    const score = readScore(twoHands());
    expect(score.harp.partIds).toEqual(['P2', 'P3']);
    expect(score.harp.staves).toBe(2);
    expect(score.notes.map((each) => each.staff)).toEqual([1, 2, 1, 2]);
    expect(pitches(score)).toEqual(['C5', 'C3', 'E5', 'E3']);
    expect(remarkCodes(score)).toContain('harp-chosen');
  });

  it('keeps the voices of the parts apart', () => {
    expect(new Set(readScore(twoHands()).notes.map((each) => each.voice)).size).toBe(2);
  });

  it('may have parts of unequal length, which is told', () => {
    const score = readScore(
      buildScore([
        { id: 'P2', name: 'Harp RH', bars: [note('C5', 4), note('E5', 4)] },
        { id: 'P3', name: 'Harp LH', bars: [note('C3', 4)] },
      ]),
    );
    expect(score.bars).toHaveLength(2);
    expect(score.remarks.some((each) => each.message.includes('P3 has 1'))).toBe(true);
  });
});

describe('a score sorted by bar', () => {
  const timewise = (): string => {
    const measure = (number: number, flute: string, harp: string): string =>
      `<measure number="${number}"><part id="P1"><attributes><divisions>240</divisions></attributes>${flute}</part><part id="P2"><attributes><divisions>240</divisions></attributes>${harp}</part></measure>`;
    return `<score-timewise version="4.0"><part-list><score-part id="P1"><part-name>Flute</part-name></score-part><score-part id="P2"><part-name>Harp</part-name></score-part></part-list>${measure(1, note('A5', 4), note('C4', 4))}${measure(2, rest(4), note('D4', 4))}</score-timewise>`;
  };

  it('is read like one sorted by part', () => {
    const score = readScore(timewise());
    expect(score.source.format).toBe('musicxml-timewise');
    expect(pitches(score)).toEqual(['C4', 'D4']);
    expect(onsets(score)).toEqual(['0', '4']);
    expect(score.bars.map((each) => each.number)).toEqual(['1', '2']);
  });

  it('may leave out bars of the harp: they are empty', () => {
    const second = timewise().indexOf('<part id="P2">', timewise().indexOf('number="2"'));
    const xml = `${timewise().slice(0, second)}${timewise().slice(timewise().indexOf('</measure>', second))}`;
    const score = readScore(xml);
    expect(pitches(score)).toEqual(['C4']);
    expect(score.bars.map((each) => [each.number, quarters(each.duration)])).toEqual([
      ['1', '4'],
      ['2', '4'],
    ]);
    expect(xml.slice(score.bars[1]!.span.start)).toMatch(/^<measure number="2"/u);
  });
});

describe('signs that repeat bars', () => {
  const repeatSign = (type: string, length = ''): string =>
    `<measure-style><measure-repeat type="${type}">${length}</measure-repeat></measure-style>`;

  it('bring back the notes of the bar before, with ids of their own, placed at the sign', () => {
    const xml = buildHarp(
      note('C4', 2, { id: 'c' }) + note('D4', 2),
      bar(rest(4), { attributes: repeatSign('start', '1') }),
      rest(4),
      bar(note('E4', 4), { attributes: repeatSign('stop') }),
    );
    const score = readScore(xml);
    expect(pitches(score)).toEqual(['C4', 'D4', 'C4', 'D4', 'C4', 'D4', 'E4']);
    expect(onsets(score)).toEqual(['0', '2', '4', '6', '8', '10', '12']);
    expect(score.notes.filter((each) => each.id.startsWith('c')).map((each) => each.id)).toEqual([
      'c',
      'c-r1',
      'c-r2',
    ]);
    expect(score.notes[2]!.span).toEqual(score.bars[1]!.span);
    expect(score.rests).toEqual([]);
  });

  it('make an empty bar as long as the bar it repeats', () => {
    const score = readHarp(note('C4', 3), bar('', { attributes: repeatSign('start', '1') }));
    expect(lengths(score)).toEqual(['3', '3']);
  });

  it('bring back two bars', () => {
    const score = readHarp(
      note('C4', 4),
      note('D4', 4),
      bar(rest(4), { attributes: repeatSign('start', '2') }),
      rest(4),
    );
    expect(pitches(score)).toEqual(['C4', 'D4', 'C4', 'D4']);
  });

  it('add nothing where the file holds the notes', () => {
    const score = readHarp(note('C4', 4), bar(note('C4', 4), { attributes: repeatSign('start', '1') }));
    expect(pitches(score)).toEqual(['C4', 'C4']);
  });

  it('with no bar before are told', () => {
    const score = readHarp(bar(rest(4), { attributes: repeatSign('start', '1') }), note('C4', 4));
    expect(pitches(score)).toEqual(['C4']);
    expect(score.remarks.some((each) => each.message.includes('too few bars before it'))).toBe(true);
  });
});

describe('repeats and jumps', () => {
  it('may stand in any part, and count once', () => {
    const flute = {
      id: 'P1',
      name: 'Flute',
      bars: [FORWARD + note('A5', 4), note('A5', 4) + BACKWARD, note('A5', 4)],
    };
    const harp = { id: 'P2', name: 'Harp', bars: [note('C4', 4), note('D4', 4), note('E4', 4)] };
    expect(readScore(buildScore([flute, harp])).playOrder).toEqual([0, 1, 0, 1, 2]);
    const both = { ...harp, bars: flute.bars };
    expect(readScore(buildScore([flute, both])).playOrder).toEqual([0, 1, 0, 1, 2]);
  });

  it('a repeat may be played more often', () => {
    const times = barline('<repeat direction="backward" times="3"/>');
    expect(readHarp(note('C4', 4) + times).playOrder).toEqual([0, 0, 0]);
  });

  it('a forward repeat at the end of a bar starts with the next', () => {
    const score = readHarp(
      note('C4', 4) + barline('<repeat direction="forward"/>'),
      note('D4', 4) + BACKWARD,
    );
    expect(score.playOrder).toEqual([0, 1, 1]);
  });

  it('da capo al fine by what the file says for playback', () => {
    const fine =
      '<direction><direction-type><words>Fine</words></direction-type><sound fine="yes"/></direction>';
    const dacapo = '<sound dacapo="yes"/>';
    const score = readHarp(note('C4', 4) + fine, note('D4', 4), note('E4', 4) + dacapo);
    expect(score.playOrder).toEqual([0, 1, 2, 0]);
  });

  it('dal segno al coda by words and signs alone', () => {
    const sign = (name: string): string =>
      `<direction><direction-type><${name}/></direction-type></direction>`;
    const say = (text: string): string =>
      `<direction><direction-type><words>${text}</words></direction-type></direction>`;
    const score = readHarp(
      note('C4', 4),
      sign('segno') + note('D4', 4) + say('To Coda'),
      note('E4', 4) + say('D.S. al Coda'),
      sign('coda') + note('F4', 4),
    );
    expect(score.playOrder).toEqual([0, 1, 2, 1, 3]);
  });

  it('a coda sign that sounds as “to coda” is where play leaves, not where it arrives', () => {
    const coda = (sound: string): string =>
      `<direction><direction-type><coda/></direction-type><sound ${sound}="c"/></direction>`;
    const score = readHarp(
      note('C4', 4) + coda('tocoda'),
      `${note('D4', 4)}<sound dacapo="yes"/>`,
      coda('coda') + note('E4', 4),
    );
    expect(score.bars.map((each) => each.repeat.jumps.map((jump) => jump.kind))).toEqual([
      ['to-coda'],
      ['da-capo'],
      ['coda'],
    ]);
    expect(score.playOrder).toEqual([0, 1, 0, 2]);
  });

  it('a segno written at the end of a bar belongs to the next', () => {
    const segno = '<direction><direction-type><segno/></direction-type><sound segno="s"/></direction>';
    const score = readHarp(
      note('C4', 4) + segno,
      note('D4', 4),
      `${note('E4', 4)}<sound dalsegno="s"/>`,
      note('F4', 4),
    );
    expect(score.playOrder).toEqual([0, 1, 2, 1, 2, 3]);
  });

  it('an ending takes the number from its stop where its start says none', () => {
    const ending = (number: string, type: string): string => `<ending number="${number}" type="${type}"/>`;
    const score = readHarp(
      FORWARD + note('C4', 4),
      barline(ending('', 'start'), 'left') + note('D4', 4),
      note('E4', 4) + barline(`${ending('1', 'stop')}<repeat direction="backward"/>`),
      barline(ending(' ', 'start'), 'left') + note('F4', 4) + barline(ending('2', 'stop')),
    );
    expect(score.bars.map((each) => each.repeat.endings)).toEqual([[], [1], [1], [2]]);
    expect(score.playOrder).toEqual([0, 1, 2, 0, 3]);
    expect(score.remarks.filter((each) => each.message.includes('ending'))).toEqual([]);
  });

  it('an ending that neither its start nor its stop numbers is passed over, and told', () => {
    const ending = (type: string): string => `<ending number="" type="${type}"/>`;
    const score = readHarp(
      FORWARD + note('C4', 4),
      barline(ending('start'), 'left') + note('D4', 4) + barline(ending('stop')),
    );
    expect(score.bars.map((each) => each.repeat.endings)).toEqual([[], []]);
    expect(
      score.remarks.filter((each) => each.message.includes('ending')).map((each) => each.barNumber),
    ).toEqual(['2']);
  });

  it('endings may be written as a list', () => {
    const ending = (number: string, type: string): string => `<ending number="${number}" type="${type}"/>`;
    const score = readHarp(
      FORWARD + note('C4', 4),
      barline(ending('1, 2', 'start'), 'left') +
        note('D4', 4) +
        barline(`${ending('1, 2', 'stop')}<repeat direction="backward"/>`),
      barline(ending('3', 'start'), 'left') + note('E4', 4) + barline(ending('3', 'discontinue')),
      note('F4', 4),
    );
    expect(score.bars.map((each) => each.repeat.endings)).toEqual([[], [1, 2], [3], []]);
    expect(score.playOrder).toEqual([0, 1, 0, 1, 0, 2, 3]);
  });

  it('that contradict each other leave the printed order, with a remark', () => {
    const ending = (number: string, type: string): string => `<ending number="${number}" type="${type}"/>`;
    const score = readHarp(
      note('C4', 4),
      barline(ending('2', 'start'), 'left') +
        note('D4', 4) +
        barline(`${ending('2', 'stop')}<repeat direction="backward"/>`),
      note('E4', 4),
    );
    expect(score.playOrder).toEqual([0, 1, 2]);
    expect(remarkCodes(score)).toContain('repeat-ill-formed');
  });
});

it('the staves of a repeated bar are filled one by one', () => {
  const sign = '<measure-style number="2"><measure-repeat type="start">1</measure-repeat></measure-style>';
  const music = note('C5', 4) + backup(4) + note('C3', 4, { staff: 2, voice: '2' });
  const later = note('D5', 4) + backup(4) + rest(4, { staff: 2, voice: '2' });
  const score = readHarp(bar(music, { attributes: '<staves>2</staves>' }), bar(later, { attributes: sign }));
  expect(pitches(score)).toEqual(['C5', 'C3', 'D5', 'C3']);
  expect(noteNamed(score, 'D5').bar).toBe(1);
});

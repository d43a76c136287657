import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../../engine/music/pitch.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { readHandWords } from '../../../../engine/score/words/hand-words.ts';
import { bar as meiBar, note as meiNote, notes as meiNotes, meiScore, read } from '../mei/mei-builder.ts';
import { backup, note, readHarp, rest, words } from '../musicxml/musicxml-builder.ts';

/** Each note that bears words about its hand, as `C4 left over`. */
const hands = (score: Score): readonly string[] =>
  score.notes
    .filter((each) => each.hand !== null)
    .map(({ pitch, hand }) => [pitchName(pitch), hand!.hand, hand!.crossing].filter(Boolean).join(' '));

/** Names of the notes under each beam, in the order of their first notes. */
const beams = (score: Score): readonly string[] => {
  const groups = new Map<string, string[]>();
  for (const { beam, pitch, staff } of score.notes) {
    if (beam !== null) groups.set(beam, [...(groups.get(beam) ?? []), `${pitchName(pitch)}/${staff}`]);
  }
  return [...groups.values()].map((names) => names.join(' '));
};

describe('words that say which hand plays', () => {
  it.each([
    ['m.g.', 'left', null],
    ['M. D.', 'right', null],
    ['l.h.', 'left', null],
    ['R.H.', 'right', null],
    ['RH', 'right', null],
    ['(m.s.)', 'left', null],
    ['main droite', 'right', null],
    ['linke Hand', 'left', null],
    ['mano sinistra', 'left', null],
    ['sopra', null, 'over'],
    ['m.g. sopra', 'left', 'over'],
    ['sotto', null, 'under'],
    ['m.d. dessous', 'right', 'under'],
    ['L.H. over', 'left', 'over'],
  ])('“%s”', (text, hand, crossing) => {
    expect(readHandWords(text)).toEqual({ hand, crossing });
  });

  it.each([
    '',
    'come sopra',
    'dolce',
    'LH: C♯ RH: F',
    'm.g. e m.d.',
    'sotto voce',
    'links und rechts',
    'gliss.',
  ])('not “%s”', (text) => {
    expect(readHandWords(text)).toBeNull();
  });

  it('or not, whatever they are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (text) => {
        const said = readHandWords(text);
        if (said !== null) expect(said.hand ?? said.crossing).not.toBeNull();
      }),
    );
  });
});

describe('words about a hand belong to the notes at which they stand', () => {
  it('of their staff, all notes of a chord', () => {
    const upper = words('m.g.', '<staff>1</staff>') + note('C5', 4) + note('E5', 4, { chord: true });
    const score = readHarp(upper + backup(4) + note('C3', 4, { staff: 2, voice: '2' }));
    expect(hands(score)).toEqual(['C5 left', 'E5 left']);
  });

  it('of the lower staff where they stand there', () => {
    const lower = words('R.H.', '<staff>2</staff>') + note('C3', 4, { staff: 2, voice: '2' });
    expect(hands(readHarp(note('C5', 4) + backup(4) + lower))).toEqual(['C3 right']);
  });

  it('or the next ones in the bar, where none begins there', () => {
    const score = readHarp(words('m.d. sopra') + rest(1) + note('D5', 1) + note('E5', 2));
    expect(hands(score)).toEqual(['D5 right over']);
  });

  it('and not those of the next bar', () => {
    expect(hands(readHarp(note('C5', 2) + words('m.g.') + rest(2), note('D5', 4)))).toEqual([]);
  });

  it('in MEI: by time and staff, or by the note they name', () => {
    const marks =
      '<dir staff="2" tstamp="1">m.d.</dir><dir startid="#f">L.H. over</dir><dir staff="1" tstamp="1">dolce</dir>';
    const upper = meiNotes('c4 d4 e4', 4) + meiNote('f4', 4, 'xml:id="f"');
    const score = read(meiScore(meiBar({ upper, lower: meiNotes('c3', 1), marks })));
    expect(hands(score)).toEqual(['C3 right', 'F4 left over']);
  });
});

describe('beams and stems', () => {
  const beam = (kind: string): string => `<beam number="1">${kind}</beam>`;
  const stemmed = (name: string, staff: number, kind: string, stem: string): string =>
    note(name, 0.5, { staff })
      .replace('<staff>', `<stem>${stem}</stem><staff>`)
      .replace('</note>', `${beam(kind)}</note>`);

  it('a beam goes over both staves, with the stems that the file states', () => {
    const score = readHarp(
      stemmed('C3', 2, 'begin', 'up') +
        stemmed('G3', 2, 'continue', 'up') +
        stemmed('E4', 1, 'continue', 'down') +
        note('G4', 0.5, { chord: true }) +
        stemmed('C5', 1, 'end', 'down') +
        stemmed('D5', 1, 'begin', 'up') +
        stemmed('E5', 1, 'end', 'up') +
        note('F5', 1),
    );
    expect(beams(score)).toEqual(['C3/2 G3/2 E4/1 G4/1 C5/1', 'D5/1 E5/1']);
    expect(score.notes.map((each) => each.stem)).toEqual([
      'up',
      'up',
      'down',
      'down',
      'down',
      'up',
      'up',
      null,
    ]);
  });

  it('two voices have beams of their own', () => {
    const voice = (id: string, names: readonly [string, string]): string =>
      names
        .map((name, i) =>
          note(name, 0.5, { voice: id }).replace('</note>', `${beam(i === 0 ? 'begin' : 'end')}</note>`),
        )
        .join('');
    const score = readHarp(voice('1', ['C5', 'D5']) + backup(1) + voice('2', ['C4', 'D4']));
    expect(beams(score)).toEqual(['C5/1 D5/1', 'C4/1 D4/1']);
  });

  it('in MEI: as elements, attributes and spans', () => {
    const upper = `<beam>${meiNotes('c4 d4', 8)}<note pname="c" oct="3" dur="8" staff="2" stem.dir="up"/></beam>${meiNote('e4', 8, 'beam="i1" stem.dir="down"')}${meiNote('f4', 8, 'beam="m1"')}${meiNote('g4', 8, 'beam="t1"')}${meiNote('a4', 8, 'xml:id="a"')}${meiNote('b4', 8, 'xml:id="b"')}`;
    const score = read(meiScore(meiBar({ upper, marks: '<beamSpan startid="#a" endid="#b"/>' })));
    expect(beams(score)).toEqual(['C4/1 D4/1 C3/2', 'E4/1 F4/1 G4/1', 'A4/1 B4/1']);
    expect(score.notes.map((each) => each.stem)).toEqual([null, null, 'up', 'down', null, null, null, null]);
  });

  it('what a repeat sign brings back has beams of its own', () => {
    const upper = `<beam>${meiNotes('c4 d4', 8)}</beam>${meiNotes('e4 f4 g4', 4)}`;
    const score = read(meiScore(meiBar({ upper }) + meiBar({ upper: '<mRpt/>' })));
    expect(beams(score)).toEqual(['C4/1 D4/1', 'C4/1 D4/1']);
  });
});

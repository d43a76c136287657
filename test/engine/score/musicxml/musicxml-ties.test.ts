import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../../engine/music/pitch.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import {
  BACKWARD,
  backup,
  bar,
  barline,
  FORWARD,
  note,
  quarters,
  readHarp,
  rest,
} from './musicxml-builder.ts';

/** Each note by name and bar number, with the one it is tied from. */
const tied = (score: Score): readonly string[] =>
  score.notes.map((each) => {
    const from = score.notes.find((other) => other.id === each.tiedFrom);
    return `${pitchName(each.pitch)}${from === undefined ? '' : ` < ${pitchName(from.pitch)} ${score.bars[from.bar]!.number}`}`;
  });

const tieRemarks = (score: Score): readonly string[] =>
  score.remarks.map((each) => each.message).filter((each) => each.includes(' tie '));

describe('a tied note', () => {
  it('goes on sounding and names the note it is tied from, across the bar line too', () => {
    const score = readHarp(
      note('C4', 1, { ties: ['start'] }) + note('C4', 3, { ties: ['stop', 'start'] }),
      note('C4', 4, { ties: ['stop'] }),
    );
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1', 'C4 < C4 1']);
  });

  it('is tied by the printed sign alone', () => {
    const score = readHarp(
      note('C4', 1, { notations: '<tied type="start"/>' }) +
        note('C4', 1, { notations: '<tied type="stop"/>' }),
    );
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1']);
  });

  it('finds its own pitch in a chord', () => {
    const score = readHarp(
      note('C4', 1, { ties: ['start'] }) +
        note('E4', 1, { chord: true, ties: ['start'] }) +
        note('E4', 1, { ties: ['stop'] }) +
        note('C4', 1, { chord: true, ties: ['stop'] }),
    );
    expect(tied(score)).toEqual(['C4', 'E4', 'E4 < E4 1', 'C4 < C4 1']);
  });

  it('prefers its own voice where two voices tie one pitch', () => {
    const voice = (id: string, lead: string, length: number): string =>
      lead +
      note('C4', length, { id: `${id}1`, voice: id, ties: ['start'] }) +
      note('C4', 1, { id: `${id}2`, voice: id, ties: ['stop'] });
    const score = readHarp(voice('a', note('E4', 1), 1) + backup(3) + voice('b', '', 2));
    const from = Object.fromEntries(score.notes.map((each) => [each.id, each.tiedFrom]));
    expect([from.a2, from.b2]).toEqual(['a1', 'b1']);
  });

  it('can come from a grace note', () => {
    const score = readHarp(
      note('C4', 0, { grace: 'plain', ties: ['start'] }) + note('C4', 1, { ties: ['stop'] }),
    );
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1']);
  });

  it('is plucked where the tie leads to another string, C sharp to D flat, and a remark says so', () => {
    const score = readHarp(note('C#4', 1, { ties: ['start'] }) + note('Db4', 1, { ties: ['stop'] }));
    expect(tied(score)).toEqual(['C♯4', 'D♭4']);
    expect(score.remarks.some((remark) => remark.message.includes('C♯4 and D♭4'))).toBe(true);
  });

  it('is plucked where no note leads to it', () => {
    const score = readHarp(note('D4') + note('C4', 1, { ties: ['stop'] }));
    expect(tied(score)).toEqual(['D4', 'C4']);
    expect(score.remarks.some((remark) => remark.message.includes('tie'))).toBe(true);
  });

  it('is not tied over a gap', () => {
    const score = readHarp(
      note('C4', 1, { ties: ['start'] }) + note('D4') + note('C4', 1, { ties: ['stop'] }),
    );
    expect(tied(score)).toEqual(['C4', 'D4', 'C4']);
  });

  it('at the start of the second ending goes on from before the first', () => {
    const ending = (number: number, type: string): string => `<ending number="${number}" type="${type}"/>`;
    const score = readHarp(
      FORWARD + note('C4', 4, { ties: ['start'] }),
      barline(ending(1, 'start'), 'left') +
        note('C4', 4, { ties: ['stop'] }) +
        barline(`${ending(1, 'stop')}<repeat direction="backward"/>`),
      barline(ending(2, 'start'), 'left') + note('C4', 4, { ties: ['stop'] }) + barline(ending(2, 'stop')),
    );
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1', 'C4 < C4 1']);
    expect(score.playOrder).toEqual([0, 1, 0, 2]);
  });

  it('two notes of one pitch without a tie are two notes', () => {
    expect(tied(readHarp(note('C4') + note('C4')))).toEqual(['C4', 'C4']);
  });

  it('counts the transposed pitch', () => {
    const transpose = '<transpose><chromatic>-12</chromatic></transpose>';
    const music = note('C5', 2, { ties: ['start'] }) + note('C5', 2, { ties: ['stop'] });
    expect(tied(readHarp(bar(music, { attributes: transpose })))).toEqual(['C4', 'C4 < C4 1']);
  });
});

describe('a tie that starts on a hidden double', () => {
  const double = (quarters: number): string =>
    note('C4', quarters, { hidden: true, voice: '2', ties: ['start'] });

  it('leads on from the printed note', () => {
    const score = readHarp(note('C4') + backup(1) + double(1) + note('C4', 3, { ties: ['stop'] }));
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1']);
  });

  it('holds the printed note as long as the double lasts', () => {
    const score = readHarp(note('C4') + backup(1) + double(2) + note('C4', 2, { ties: ['stop'] }));
    expect(tied(score)).toEqual(['C4', 'C4 < C4 1']);
    expect(score.notes.map((each) => quarters(each.duration))).toEqual(['2', '2']);
  });

  it('is said to be hidden where it does not meet the tied note', () => {
    const score = readHarp(note('C4') + backup(1) + double(2) + rest(1) + note('C4', 1, { ties: ['stop'] }));
    expect(tied(score)).toEqual(['C4', 'C4']);
    expect(tieRemarks(score)).toEqual([
      'The hidden first note of a tie ends before the second begins; the second note is plucked.',
    ]);
  });
});

describe('the end of a tie that meets no note is plucked, and a remark says why', () => {
  it.each([
    [
      'the first note ends too soon',
      note('C4', 1, { ties: ['start'] }) + note('D4') + note('C4', 2, { ties: ['stop'] }),
      'The first note of a tie ends before the second begins; the second note is plucked.',
    ],
    [
      'the first note lasts too long',
      `${note('C4', 3, { ties: ['start'] }) + backup(1)}${note('C4', 2, { voice: '2', ties: ['stop'] })}`,
      'The first note of a tie is still sounding when the second begins; the second note is plucked.',
    ],
    [
      'no note of its pitch starts it',
      note('D4', 1, { ties: ['start'] }) + note('C4', 3, { ties: ['stop'] }),
      'A tie ends at a note, but none of the same pitch starts it; the note is plucked.',
    ],
    [
      'the last tie of its pitch has its other end already',
      note('C4', 1, { ties: ['start'] }) +
        note('C4', 1, { ties: ['stop'] }) +
        note('D4') +
        note('C4', 1, { ties: ['stop'] }),
      'A tie ends at a note, but none of the same pitch starts it; the note is plucked.',
    ],
  ])('%s', (_, music, message) => {
    expect(tieRemarks(readHarp(music))).toEqual([message]);
  });
});

it('a repeat sign alone ties nothing', () => {
  expect(tied(readHarp(FORWARD + note('C4', 4, { ties: ['start'] }) + BACKWARD, note('D4', 4)))).toEqual([
    'C4',
    'D4',
  ]);
});

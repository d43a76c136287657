import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../../../engine/score/model/score.ts';
import { playersInName, readSharingWords } from '../../../../engine/score/words/sharing-words.ts';
import { bar as meiBar, notes as meiNotes, meiScore, read } from '../mei/mei-builder.ts';
import { buildScore, note, readHarp, readScore, words } from '../musicxml/musicxml-builder.ts';

/** `one 1`, `together 1 2`, `divided 1 2`; null for no such words. */
const said = (text: string): string | null => {
  const read = readSharingWords(text);
  return read === null ? null : [read.kind, ...read.players].join(' ');
};

const marks = (score: Score): readonly string[] =>
  score.sharing.map(({ bar, staff, kind, players }) => [bar, staff ?? 'all', kind, ...players].join(' '));

describe('a part’s name tells for how many players it is', () => {
  it.each([
    ['Harp', 1],
    ['Harp 1', 1],
    ['Harp II', 1],
    ['2. Harfe', 1],
    ['1st Harp', 1],
    ['Harps 1', 1],
    ['2 Harps', 2],
    ['Two Harps', 2],
    ['Harps', 2],
    ['Harpes', 2],
    ['Harp I. II.', 2],
    ['Harp 1.2.', 2],
    ['Harfe I/II', 2],
    ['2 Harfen', 2],
    ['Arpe 1 e 2', 2],
    ['Harps 1 & 2', 2],
    ['Harp 1-3', 3],
    ['4 Harpes', 4],
    ['Piano (or Harp)', 1],
    ['Harp RH', 1],
  ])('%s: %i', (name, players) => {
    expect(playersInName(name)).toBe(players);
  });
});

describe('words that say who of several players plays', () => {
  it.each([
    ['1.2.', 'together 1 2'],
    ['1. 2.', 'together 1 2'],
    ['I. II.', 'together 1 2'],
    ['I + II', 'together 1 2'],
    ['1. e 2.', 'together 1 2'],
    ['a 2', 'together 1 2'],
    ['a2', 'together 1 2'],
    ['à 2', 'together 1 2'],
    ['zu 2', 'together 1 2'],
    ['a due', 'together 1 2'],
    ['a 3', 'together 1 2 3'],
    ['unis.', 'together'],
    ['tutti', 'together'],
    ['div.', 'divided 1 2'],
    ['divisi', 'divided 1 2'],
    ['div. a 3', 'divided 1 2 3'],
    ['geteilt', 'divided 1 2'],
    ['1.', 'one 1'],
    ['I', 'one 1'],
    ['II', 'one 2'],
    ['2nd', 'one 2'],
    ['1. solo', 'one 1'],
    ['solo', 'one 1'],
  ])('“%s”: %s', (text, expected) => {
    expect(said(text)).toBe(expected);
  });

  it.each(['', 'a tempo', '2 1', 'dolce', 'à la corde', '1.2.1', 'più', 'I tempo', '12/8', 'diva'])(
    'not “%s”',
    (text) => {
      expect(said(text)).toBeNull();
    },
  );

  it('or not, whatever they are: players are numbers from 1, rising', () => {
    const pieces = fc.constantFrom(
      '1',
      '2',
      '3',
      '12',
      '99',
      '.',
      ' ',
      '-',
      'i',
      'v',
      'a',
      'div.',
      '&',
      'solo',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), (parts) => {
        const players = readSharingWords(parts.join(''))?.players ?? [];
        expect(players).toEqual([...new Set(players)].toSorted((a, b) => a - b));
        for (const player of players) expect(player).toBeGreaterThan(0);
      }),
    );
  });
});

describe('a part that several players share', () => {
  it('is known by words alone, and a remark says so', () => {
    const score = readHarp(words('div.', '<staff>1</staff>') + note('C4', 4), words('a 2') + note('D4', 4));
    expect(score.harp.players).toBe(2);
    expect(marks(score)).toEqual(['0 1 divided 1 2', '1 all together 1 2']);
    expect(score.remarks.map((each) => each.message)).toContain('The part is written for 2 players.');
  });

  it('is known by its name, and then single numbers are players', () => {
    const bars = [words('I') + note('C4', 4), words('tutti') + note('D4', 4)];
    const score = readScore(buildScore([{ id: 'P1', name: 'Harp I. II.', bars }]));
    expect(score.harp.players).toBe(2);
    expect(marks(score)).toEqual(['0 all one 1', '1 all together']);
  });

  it('is none where single numbers stand alone', () => {
    const score = readHarp(words('1.') + note('C4', 4), words('tutti') + note('D4', 4));
    expect(score.harp.players).toBe(1);
    expect(marks(score)).toEqual([]);
    expect(score.remarks.some((each) => each.message.includes('players'))).toBe(false);
  });

  it('in MEI, too', () => {
    const flow =
      meiBar({ upper: meiNotes('c4', 1), marks: '<dir staff="1" tstamp="1">1.2.</dir>' }) +
      meiBar({ upper: meiNotes('d4', 1), marks: '<dir staff="1 2" tstamp="1">II</dir>' });
    const score = read(meiScore(flow));
    expect(score.harp.players).toBe(2);
    expect(marks(score)).toEqual(['0 1 together 1 2', '1 all one 2']);
  });
});

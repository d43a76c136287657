import { describe, expect, it } from 'vitest';
import { pitchName } from '../../../../engine/music/pitch.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { note, onsets, quarters, readHarp, remarkCodes, rest } from './musicxml-builder.ts';

const durations = (score: Score): readonly string[] =>
  score.notes.map((each) => `${pitchName(each.pitch)} ${quarters(each.duration)}`);

const lengths = (score: Score): readonly string[] => score.bars.map((each) => quarters(each.duration));

const tiedNames = (score: Score): readonly string[] =>
  score.notes.filter((each) => each.tiedFrom !== null).map((each) => pitchName(each.pitch));

const skipped = (score: Score): readonly string[] =>
  score.remarks.filter((each) => each.code === 'skipped').map((each) => each.message);

/** A crotchet triplet of chords whose upper notes keep the length of a plain crotchet. */
const unscaledTriplet = [1, 2, 3]
  .map(() => note('C4', 2 / 3) + note('E4', 1, { chord: true }) + note('G4', 1, { chord: true }))
  .join('');

describe('a note written longer than the first note of its chord (MusicXML 4.0, chord)', () => {
  it('lasts as long as the chord', () => {
    const score = readHarp(unscaledTriplet + rest(2));
    expect(new Set(durations(score))).toEqual(new Set(['C4 2/3', 'E4 2/3', 'G4 2/3']));
  });

  it('does not make its bar longer, so that the next bar starts in time', () => {
    const score = readHarp(rest(2) + unscaledTriplet, note('D4', 4));
    expect(lengths(score)).toEqual(['4', '4']);
    expect(onsets(score).at(-1)).toBe('4');
    expect(remarkCodes(score)).not.toContain('bar-overfull');
  });

  it('is told once with the bars in which it stands', () => {
    const score = readHarp(rest(2) + unscaledTriplet, rest(2) + unscaledTriplet);
    expect(skipped(score)).toEqual([
      'A note written longer than its chord is read as long as the chord (also in bar 2).',
    ]);
  });

  it('keeps its tie to the note that begins where the chord ends', () => {
    const score = readHarp(
      note('C4', 2 / 3, { ties: ['start'] }) +
        note('E4', 1, { chord: true, ties: ['start'] }) +
        note('C4', 1 / 3, { ties: ['stop'] }) +
        note('E4', 1 / 2, { chord: true, ties: ['stop'] }),
    );
    expect(tiedNames(score)).toEqual(['C4', 'E4']);
  });

  it('is left alone where the chord begins with a grace note, which has no length', () => {
    const score = readHarp(
      note('C4', 0, { grace: 'plain' }) + note('E4', 1, { chord: true }) + note('G4', 4),
    );
    expect(durations(score)).toContain('E4 1');
  });
});

describe('a note shorter than the first note of its chord', () => {
  it('keeps its own length', () => {
    const score = readHarp(note('C4', 2) + note('E4', 1, { chord: true }) + note('G4', 2));
    expect(durations(score)).toEqual(['C4 2', 'E4 1', 'G4 2']);
    expect(skipped(score)).toEqual([]);
  });

  it('is tied over the chord to the note that begins where the chord ends, and lasts until then', () => {
    const score = readHarp(
      note('C4', 3 / 2, { ties: ['start'] }) +
        note('E4', 1, { chord: true, ties: ['start'] }) +
        note('C4', 5 / 2, { ties: ['stop'] }) +
        note('E4', 5 / 2, { chord: true, ties: ['stop'] }),
    );
    expect(tiedNames(score)).toEqual(['C4', 'E4']);
    expect(durations(score)[1]).toBe('E4 3/2');
  });

  it('is tied where it ends itself, if a note begins there', () => {
    const score = readHarp(
      `${note('C4', 2) + note('E4', 1, { chord: true, ties: ['start'] })}<backup><duration>240</duration></backup>${note('E4', 1, { voice: '2', ties: ['stop'] })}`,
    );
    expect(durations(score)).toEqual(['C4 2', 'E4 1', 'E4 1']);
    expect(tiedNames(score)).toEqual(['E4']);
  });
});

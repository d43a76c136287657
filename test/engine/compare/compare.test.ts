import fc from 'fast-check';
import { Key as TonalKey, Note as TonalNote } from 'tonal';
import { describe, expect, it } from 'vitest';
import { compareHarps, DEFAULT_COMPARE_OPTIONS } from '../../../engine/compare/compare.ts';
import { comparePedalKeys, readMode } from '../../../engine/compare/pedal-keys.ts';
import { transposePitch, transposeScore, transposingInterval } from '../../../engine/compare/transpose.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { nameKey } from '../../../engine/music/key-names.ts';
import { LETTERS, midiOf, pitchName } from '../../../engine/music/pitch.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { nameKeyTried } from '../../../engine/words/plan-words.ts';
import { readPitch, smallPart } from '../../part-builder.ts';

const inEFlat = { ...DEFAULT_COMPARE_OPTIONS.lever, tuning: LEVER_HARP.tuning };

describe('a part in another key', () => {
  it('sounds as many semitones higher, on every pitch', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...LETTERS),
        fc.constantFrom(-1, 0, 1),
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: -7, max: 7 }),
        fc.integer({ min: -6, max: 6 }),
        (letter, alter, octave, key, semitones) => {
          const pitch = { letter, alter, octave };
          const moved = transposePitch(pitch, transposingInterval(key, semitones));
          expect(midiOf(moved) - midiOf(pitch)).toBe(semitones);
          expect(Math.abs(moved.alter)).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it('is spelled as musicians spell it: by the interval between the keys (tonal)', () => {
    // From C major: D flat, D, E flat, E, F, G flat above; B, B flat, A, A flat, G, G flat below.
    const intervals = ['2m', '2M', '3m', '3M', '4P', '5d', '-2m', '-2M', '-3m', '-3M', '-4P', '-4A'];
    const names = ['C4', 'E4', 'F4', 'B4'];
    const semitones = [1, 2, 3, 4, 5, 6, -1, -2, -3, -4, -5, -6];
    semitones.forEach((count, i) => {
      for (const name of names) {
        const expected = TonalNote.transpose(name, intervals[i]!);
        if (/##|bb/.test(expected)) continue;
        expect(
          pitchName(transposePitch(readPitch(name), transposingInterval(0, count))),
          `${name} ${count}`,
        ).toBe(expected.replace('#', '♯').replace('b', '♭'));
      }
    });
  });

  it('comes back to what it was', () => {
    const score = smallPart({ upper: 'Bb3/1 C#4/1 F4/1 Eb5/1', keyFifths: -2 });
    const there = transposeScore(score, transposingInterval(-2, 4));
    const back = transposeScore(there, transposingInterval(there.bars[0]!.keyFifths, -4));
    expect(back.notes.map(({ pitch }) => pitch)).toEqual(score.notes.map(({ pitch }) => pitch));
  });
});

describe('whether a part can be played on the other harp', () => {
  it('is yes on both for a tune in E flat', () => {
    const { pedal, lever } = compareHarps(smallPart({ upper: 'Eb4/1 F4/1 G4/1 Ab4/1', keyFifths: -3 }));
    expect(pedal).toMatchObject({ playable: true, changes: 0 });
    expect(lever).toMatchObject({ playable: true, changes: 0, tuning: 'E♭ major', leversUp: 0 });
  });

  it('is no on the pedal harp alone where octaves of one letter differ', () => {
    const { pedal, lever } = compareHarps(smallPart({ upper: 'F4+F#5/4' }));
    expect(pedal.playable).toBe(false);
    expect(lever.playable).toBe(true);
  });

  it('is no on the lever harp alone where the music is chromatic and leaves no hand free', () => {
    const run = 'F4/1:2 F#4/1:2 F4/1:2 F#4/1:2 F4/1:2 F#4/1:2 F4/1:2 F#4/1:2';
    const { pedal, lever } = compareHarps(smallPart({ upper: run, lower: run.replaceAll('4/', '2/') }), {
      ...DEFAULT_COMPARE_OPTIONS,
      lever: inEFlat,
    });
    expect(lever.playable).toBe(false);
    expect(pedal.stops).toBeLessThan(lever.stops);
  });

  it('finds the keys in which a tune in B needs no retuning and no change on a harp in E flat', () => {
    const tune = smallPart({ upper: 'B4/1 A#4/1 B4/1 A4/1 | D#5/1 E5/1 A#4/1 B4/1', keyFifths: 5 });
    const { lever, transpositions, considered } = compareHarps(tune, {
      ...DEFAULT_COMPARE_OPTIONS,
      lever: inEFlat,
    });
    expect(lever.changes).toBeGreaterThan(0);
    expect(considered).toHaveLength(12);
    const best = transpositions[0]!;
    expect(best.lever.stops).toBe(0);
    expect(best.lever.changes).toBeLessThan(lever.changes);
  });

  it('never bounds a key above what its plan costs, nor lists a key that is no better', () => {
    const tune = smallPart({
      upper: 'C4/1 C#4/1 D4/1 r/1 | F4/1 Bb4/1 B4/1 r/1 | F#4/1 E4/1 Eb4/1 C4/1',
      lower: 'C3/4 | r/4 | G2/2 r/2',
    });
    const { lever, transpositions, considered } = compareHarps(tune, {
      ...DEFAULT_COMPARE_OPTIONS,
      keysPlanned: 12,
    });
    const price = (each: { readonly missingNotes: number; readonly changes: number }): number =>
      20 * each.missingNotes + each.changes;
    for (const bound of considered) {
      const moved = transposeScore(tune, transposingInterval(0, bound.semitones));
      expect(price(bound)).toBeLessThanOrEqual(price(planLevers(moved).tunings[0]!));
    }
    for (const each of transpositions) {
      expect(each.lever.stops < lever.stops || each.lever.changes < lever.changes).toBe(true);
      const moved = transposeScore(tune, transposingInterval(0, each.semitones));
      expect(each.pedal.changes).toBe(planPedals(moved).summary.moves);
    }
  });
});

describe('a part on the pedal harp in other keys', () => {
  /** In D minor; the B pedal and the A pedal move. */
  const tune = smallPart({ upper: 'A4/1 B4/1 C5/1 Bb4/1 | A4/2 Ab4/2', lower: 'A2/4 | D2/4', keyFifths: -1 });

  it('is planned in each, the written one too, and each goes as its own plan says', () => {
    const keys = comparePedalKeys(tune, DEFAULT_COMPARE_OPTIONS.pedal, 6);
    const ways = keys.flatMap(({ semitones, otherWay }) => [semitones, otherWay?.semitones ?? []].flat());
    expect(ways.sort((a, b) => a - b)).toEqual(Array.from({ length: 13 }, (_, i) => i - 6));
    for (const { semitones, pedal } of keys) {
      const { summary } = planPedals(transposeScore(tune, transposingInterval(-1, semitones)));
      expect([pedal.changes, pedal.grade]).toEqual([summary.moves, summary.difficulty.grade]);
    }
  });

  it('is told once where it is reached both up and down, with the way that goes better', () => {
    const keys = comparePedalKeys(tune, DEFAULT_COMPARE_OPTIONS.pedal, 6);
    expect(new Set(keys.map(({ keyFifths }) => keyFifths)).size).toBe(keys.length);
    const named = (upper: string): readonly string[] =>
      comparePedalKeys(smallPart({ upper }), DEFAULT_COMPARE_OPTIONS.pedal, 6).map(
        ({ semitones, keyFifths, otherWay }) =>
          nameKeyTried(semitones, nameKey(keyFifths, 'major'), otherWay),
      );
    expect(named('C4/4')).toContain('6 semitones down or 6 up: G♭ major');
    expect(named('G7/4')).toContain('6 semitones down, better than 6 up: G♭ major');
    expect(named('D1/4')).toContain('6 semitones up, better than 6 down: G♭ major');
  });

  it('stands before others where it has fewer moves, and of equals the one with more flats', () => {
    const keys = comparePedalKeys(tune, DEFAULT_COMPARE_OPTIONS.pedal, 6);
    const ranks = keys.map(({ pedal, keyFifths }) => [pedal.stops, pedal.changes, keyFifths]);
    expect(ranks).toEqual([...ranks].sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]! || a[2]! - b[2]!));
    const scale = smallPart({ upper: 'C4/1 D4/1 E4/1 F4/1', lower: 'C3/4' });
    expect(comparePedalKeys(scale, DEFAULT_COMPARE_OPTIONS.pedal, 6)[0]!.keyFifths).toBe(-6);
  });

  it('is named by its last bass note where that tells the mode', () => {
    expect(readMode(tune)).toBe('minor');
    expect(nameKey(-4, 'minor')).toBe('F minor');
    expect(readMode(smallPart({ upper: 'C4/4', lower: 'C3/4' }))).toBe('major');
    expect(readMode(smallPart({ upper: 'C4/4', lower: 'E3/4' }))).toBeNull();
    expect(nameKey(-3, null)).toBe('E♭ major or C minor');
  });

  it('has the name that others have for it (tonal)', () => {
    for (let fifths = -7; fifths <= 7; fifths += 1) {
      const { tonic, minorRelative } = TonalKey.majorKey(TonalKey.majorTonicFromKeySignature(fifths)!);
      const spelled = (name: string): string => name.replaceAll('b', '♭').replaceAll('#', '♯');
      expect(nameKey(fifths, null)).toBe(`${spelled(tonic)} major or ${spelled(minorRelative)} minor`);
    }
  });
});

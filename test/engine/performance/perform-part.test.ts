import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { rational, toNumber, ZERO } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { buildPlayback } from '../../../engine/performance/build-playback.ts';
import {
  beatsAt,
  noteheadsSoundingAt,
  type PartPerformance,
  performPart,
  placeAt,
  secondsAtBeat,
  secondsAtPosition,
  settingAt,
  soundsOf,
} from '../../../engine/performance/perform-part.ts';
import type { Tremolo } from '../../../engine/score/model/note.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { releaseTimes } from '../../../engine/sounding/ties.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

const perform = (score: Score): PartPerformance => performPart(buildPlayback(score), planPedals(score));

const round = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** Plucks as `seconds midi`, in order of time. */
const plucks = (performance: PartPerformance): string[] =>
  performance.bars.flatMap((_, i) =>
    soundsOf(performance, i).plucks.map(({ at, midi }) => `${round(at)} ${midi}`),
  );

const plucked = (part: SmallPart): string[] => plucks(perform(smallPart(part)));

const withTremolo = (score: Score, tremolo: (id: string) => Tremolo): Score => ({
  ...score,
  notes: score.notes.map((note) => ({ ...note, tremolo: tremolo(note.id) })),
});

describe('the plucks of a part', () => {
  it('come at the tempo: a quarter note at 120 takes half a second', () => {
    expect(plucked({ upper: 'C4/1 D4/1 E4+G4/2', quartersPerMinute: 120 })).toEqual([
      '0 60',
      '0.5 62',
      '1 64',
      '1 67',
    ]);
  });

  it('leave out tied notes, whose string rings on for the whole of the tie', () => {
    const performance = perform(smallPart({ upper: 'C4/4 | ~C4/2 D4/2' }));
    expect(plucks(performance)).toEqual(['0 60', '6 62']);
    expect(soundsOf(performance, 0).plucks[0]!.seconds).toBe(6);
  });

  it('ring as long as the longest of the endings that a note is tied into, and no longer', () => {
    const part = smallPart({ upper: 'C4/4 | ~C4/2 D4/2 | C4/3 D4/1', playOrder: [0, 1, 0, 2] });
    const first = part.notes[0]!;
    const intoBoth: Score = {
      ...part,
      notes: part.notes.map((note) =>
        note.bar === 2 && note.pitch.letter === 'C' ? { ...note, tiedFrom: first.id } : note,
      ),
    };
    // What the pedal is held for is what is heard: the bar before and the three quarters of the second ending.
    expect(toNumber(releaseTimes(intoBoth.notes).get(first.id)!)).toBe(7);
    expect(soundsOf(perform(intoBoth), 0).plucks[0]!.seconds).toBe(7);
  });

  it('follow a repeat with the time that has gone by', () => {
    expect(plucked({ upper: 'C4/4 | D4/4', playOrder: [0, 1, 0, 1] })).toEqual([
      '0 60',
      '4 62',
      '8 60',
      '12 62',
    ]);
  });

  it('break a chord from the lowest string up, over both staves', () => {
    const found = plucked({ upper: 'E5+G5/4{', lower: 'C3+G3/4{' });
    expect(found.map((each) => each.split(' ')[1])).toEqual(['48', '55', '76', '79']);
    expect(found[0]).toBe('0 48');
    expect(new Set(found.map((each) => each.split(' ')[0])).size).toBe(4);
  });

  it('put grace notes before their note, and before the beginning if they are first', () => {
    const performance = perform(smallPart({ upper: '(D4) C4/2 (E4) C4/2' }));
    expect(plucks(performance)).toEqual(['0 62', '0.1 60', '2 64', '2.1 60']);
    expect(performance.bars[0]!.at).toBeCloseTo(0.1);
  });

  it('sound a harmonic an octave above the string that is plucked', () => {
    const [pluck] = soundsOf(perform(smallPart({ upper: 'G3/4o' })), 0).plucks;
    expect(pluck).toMatchObject({ midi: 67, string: { letter: 'G', octave: 3 }, harmonic: true });
  });

  it('take double accidentals on the string that gives them', () => {
    const [pluck] = soundsOf(perform(smallPart({ upper: 'Dbb4/4' })), 0).plucks;
    expect(pluck).toMatchObject({ midi: 60, string: { letter: 'C', octave: 4 } });
  });

  it('alternate a trill with its neighbour until its end', () => {
    const found = plucked({ upper: 'B4/1tr(C5) r/3' });
    expect(found.length).toBeGreaterThan(6);
    expect(found.every((each, i) => each.endsWith(i % 2 === 0 ? ' 71' : ' 72'))).toBe(true);
    expect(found.every((each) => Number(each.split(' ')[0]) < 1)).toBe(true);
  });

  it('repeat a tremolo of two marks in sixteenths', () => {
    const score = withTremolo(smallPart({ upper: 'C4/1 r/3' }), () => ({
      kind: 'single',
      marks: 2,
      pair: null,
    }));
    expect(plucks(perform(score))).toEqual(['0 60', '0.25 60', '0.5 60', '0.75 60']);
  });

  it('go to and fro in a tremolo between two notes', () => {
    const score = withTremolo(smallPart({ upper: 'C4/1 E4/1 r/2' }), (id) => ({
      kind: 'between',
      marks: 1,
      pair: id === 'n0' ? 'n1' : 'n0',
    }));
    expect(plucks(perform(score))).toEqual(['0 60', '0.5 64', '1 60', '1.5 64']);
  });

  it('are no more than a thousand for one note, whatever length a file states', () => {
    const score = withTremolo(smallPart({ upper: 'C4/1000000' }), () => ({
      kind: 'single',
      marks: 5,
      pair: null,
    }));
    expect(plucks(perform(score))).toHaveLength(1000);
  });

  it('sweep a glissando over every string between its ends, as the pedals stand', () => {
    const found = plucked({ upper: 'C4/1> C5/1 r/2', keyFifths: -3 });
    expect(found.map((each) => Number(each.split(' ')[1]))).toEqual([60, 62, 63, 65, 67, 68, 70, 72]);
    expect(found.at(-1)).toBe('1 72');
  });

  it('sweep the strings between the written notes of a glissando once', () => {
    const score = smallPart({ upper: 'C4/1:2 D4/1:2 E4/1:2 F4/1:2 C5/2' });
    const [first, last] = [score.notes[0]!, score.notes.at(-1)!];
    const sweep = { from: first.id, to: last.id, start: first.onset, end: last.onset, bar: 0, words: null };
    const found = plucks(perform({ ...score, sweeps: [{ kind: 'glissando', ...sweep }] }));
    expect(found.map((each) => Number(each.split(' ')[1]))).toEqual([60, 62, 64, 65, 67, 69, 71, 72]);
  });

  it('leave out cues of other instruments and notes that the player leaves out', () => {
    const score = smallPart({ upper: 'C4/1 D4/1 E4/2' });
    const [first, ...others] = score.notes;
    const cued = { ...score, notes: [{ ...first!, role: 'cue' as const }, ...others] };
    const performance = performPart(buildPlayback(cued), planPedals(cued), new Set(['n1']));
    expect(plucks(performance)).toEqual(['2 64']);
    expect(noteheadsSoundingAt(performance, placeAt(performance, 1.5), 1.5)).toEqual([]);
  });

  it('are stilled where the score says so, on each pass', () => {
    const score: Score = {
      ...smallPart({ upper: 'C4/2 r/2 | D4/4', playOrder: [0, 0, 1] }),
      damps: [{ at: rational(2), kind: 'damp-all', staff: null }],
    };
    const performance = perform(score);
    expect([0, 1, 2].map((i) => soundsOf(performance, i).damps)).toEqual([
      [{ at: 2, staff: null }],
      [{ at: 6, staff: null }],
      [],
    ]);
  });
});

describe('the pedals of a performance', () => {
  it('move when the plan says, and stand so until the next move', () => {
    const performance = perform(smallPart({ upper: 'C4/1 r/2 C#4/1 | r/3 C4/1' }));
    expect(performance.moves.map(({ letter, after }) => `${letter}${after[letter]}`)).toEqual(['C1', 'C0']);
    const [sharpened] = performance.moves;
    expect(formatSetting(settingAt(performance, sharpened!.at - 0.01))).toContain('C♮');
    expect(formatSetting(settingAt(performance, sharpened!.at))).toContain('C♯');
  });

  it('move again on the second pass, and tell how long the foot had rested', () => {
    const performance = perform(
      smallPart({ upper: 'C4/4 | r/4 | C#4/4 | r/4', playOrder: [0, 1, 2, 3, 0, 1, 2, 3] }),
    );
    expect(performance.moves.map(({ after }) => after.C)).toEqual(
      [1, 0, 1, 0].slice(0, performance.moves.length),
    );
    expect(performance.moves.length).toBeGreaterThanOrEqual(3);
    expect(performance.moves[0]!.sinceFootMoved).toBe(Number.POSITIVE_INFINITY);
    const [first, second] = performance.moves;
    expect(second!.sinceFootMoved).toBeCloseTo(second!.at - first!.at);
  });

  it('always stand where a plucked note finds them, on every pass (plans without unmet needs)', () => {
    const name = fc.constantFrom('C4', 'C#4', 'D4', 'Eb4', 'E4', 'F4', 'F#4', 'G4', 'Ab4', 'A4', 'Bb4', 'B4');
    const bar = fc
      .array(name, { minLength: 4, maxLength: 4 })
      .map((names) => names.map((each) => `${each}/1`).join(' '));
    const piece = fc.array(bar, { minLength: 3, maxLength: 5 });
    fc.assert(
      fc.property(piece, fc.boolean(), (bars, repeated) => {
        const order = bars.map((_, i) => i);
        const score = smallPart({
          upper: bars.join(' | '),
          quartersPerMinute: 40,
          playOrder: repeated ? [...order, ...order] : order,
        });
        const plan = planPedals(score);
        fc.pre(plan.summary.playable);
        const performance = performPart(buildPlayback(score), plan);
        const pitchOf = new Map(score.notes.map(({ id, pitch }) => [id, pitch]));
        performance.bars.forEach((_, i) => {
          for (const { at, note } of soundsOf(performance, i).plucks) {
            const { letter, alter } = pitchOf.get(note)!;
            expect(settingAt(performance, at)[letter]).toBe(alter);
          }
        });
      }),
      { numRuns: cases(60) },
    );
  });
});

describe('the place in the score', () => {
  const score: Score = {
    ...smallPart({ upper: 'C4/4 | D4/4 | E4/4', playOrder: [0, 1, 0, 2] }),
    tempo: [
      { at: ZERO, quartersPerMinute: 60, origin: 'sound' },
      { at: rational(6), quartersPerMinute: 120, origin: 'sound' },
    ],
  };
  const performance = perform(score);

  it('follows changes of tempo within a bar, and the repeat', () => {
    // Bar 1 takes 4 s, bar 2 two quarters at 60 and two at 120: 3 s, bar 1 again 4 s, bar 3 at 120: 2 s.
    expect(performance.seconds).toBe(13);
    expect(placeAt(performance, 6.5)).toEqual({ played: 1, quarters: 7 });
    expect(placeAt(performance, 8)).toEqual({ played: 2, quarters: 1 });
    expect(placeAt(performance, 12)).toEqual({ played: 3, quarters: 10 });
    expect(placeAt(performance, 99)).toEqual({ played: 3, quarters: 12 });
    expect(performance.bars.map(({ pass }) => pass)).toEqual([1, 1, 2, 1]);
  });

  it('leads back to the time it was found for', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 12.99, noNaN: true }), (seconds) => {
        expect(secondsAtPosition(performance, placeAt(performance, seconds))).toBeCloseTo(seconds, 6);
        expect(secondsAtBeat(performance, beatsAt(performance, seconds))).toBeCloseTo(seconds, 6);
      }),
    );
  });

  it('counts beats along the music as its findings do, nine in a bar of 9/8', () => {
    const slow = perform(smallPart({ upper: 'C4/4:1 | D4/4', meter: { beats: 9, beatUnit: 8 } }));
    expect(beatsAt(slow, slow.bars[1]!.at)).toBe(9);
  });

  it('shows the noteheads that sound, tied ones too', () => {
    const tied = perform(smallPart({ upper: 'C4/4 | ~C4/2 D4/2', lower: 'C3/4 | r/4' }));
    const heads = (seconds: number) => noteheadsSoundingAt(tied, placeAt(tied, seconds), seconds).length;
    expect([1, 4.5, 7].map(heads)).toEqual([2, 1, 1]);
  });
});

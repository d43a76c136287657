import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { midiOf, type Pitch, pitchName } from '../../../../engine/music/pitch.ts';
import { toNumber } from '../../../../engine/music/rational.ts';
import type { Plan } from '../../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../../engine/pedals/options.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import type { Note } from '../../../../engine/score/model/note.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { otherStrings } from '../../../../engine/sounding/needs.ts';
import { RESTRIKE_SECONDS } from '../../../../engine/sounding/string-times.ts';
import { type SmallPart, smallPart } from '../../../part-builder.ts';
import { cases } from '../../../thorough.ts';

const freely = (score: Score): Plan => planPedals(score, { ...DEFAULT_PLAN_OPTIONS, spelling: 'free' });

const stringsOf = (part: SmallPart): string[] => {
  const score = smallPart(part);
  const { respellings } = freely(score);
  return score.notes.map(({ id, pitch }) =>
    pitchName(respellings.find(({ note }) => note === id)?.to ?? pitch),
  );
};

/** Every way to give the notes strings of their pitch. */
const spellingsOf = ([note, ...others]: readonly Note[]): ReadonlyMap<string, Pitch>[] =>
  note === undefined
    ? [new Map()]
    : spellingsOf(others).flatMap((rest) => [
        rest,
        ...otherStrings(note.pitch).map((pitch) => new Map([...rest, [note.id, pitch] as const])),
      ]);

/** Whether a respelled note takes a string that another needs then, or one that its own pitch is written on nearby. */
const takesString = (score: Score, strings: ReadonlyMap<string, Pitch>, quarterSeconds: number): boolean =>
  score.notes.some((note) => {
    const to = strings.get(note.id);
    return (
      to !== undefined &&
      score.notes.some((other) => {
        const [at, there] = [toNumber(note.onset), toNumber(other.onset)];
        const near =
          Math.abs(at - there) * quarterSeconds < RESTRIKE_SECONDS ||
          (there < at && there + toNumber(other.duration) > at);
        const isOn = ({ letter, octave }: Pitch): boolean => letter === to.letter && octave === to.octave;
        const isOnNow = isOn(strings.get(other.id) ?? other.pitch);
        const samePitch = midiOf(other.pitch) === midiOf(to);
        // What is written on one string may go to another one together.
        const together = samePitch && other.pitch.letter === note.pitch.letter;
        return other !== note && near && !together && (isOnNow || (samePitch && isOn(other.pitch)));
      })
    );
  });

const NAMES = ['C4', 'C#4', 'Db4', 'D4', 'D#4', 'Eb4', 'E4', 'Fb4', 'F4', 'E#4', 'F#4'] as const;

describe('free spelling of all notes together', () => {
  it('has the fewest moves, then the fewest respelled notes, of all spellings that can be played', () => {
    const chord = fc.uniqueArray(fc.constantFrom(...NAMES), { minLength: 1, maxLength: 2 });
    let claimed = 0;
    fc.assert(
      fc.property(
        fc.array(chord, { minLength: 3, maxLength: 4 }),
        fc.constantFrom(60, 100, 200),
        fc.constantFrom('1:2', '1:4', '1'),
        (chords, quartersPerMinute, length) => {
          const upper = chords.map((names) => `${names.join('+')}/${length}`).join(' ');
          const score = smallPart({ upper, quartersPerMinute });
          const plan = freely(score);
          const all = spellingsOf(score.notes)
            .filter((strings) => !takesString(score, strings, 60 / quartersPerMinute))
            .map((respelled) => planPedals(score, { ...DEFAULT_PLAN_OPTIONS, respelled }))
            .filter(({ summary }) => summary.playable);
          for (const { summary } of all) {
            expect(summary.moves).toBeGreaterThanOrEqual(plan.summary.minMoves);
          }
          if (plan.summary.minMoves === plan.summary.moves) claimed += 1;
          expect(plan.summary.playable).toBe(all.length > 0);
          if (all.length === 0) return;
          const costOf = ({ summary, respellings }: Plan) => 1000 * summary.moves + respellings.length;
          expect(costOf(plan)).toBe(Math.min(...all.map(costOf)));
        },
      ),
      { numRuns: cases(50) },
    );
    expect(claimed).toBeGreaterThan(cases(25));
  }, 120_000);

  it('reads D, D sharp and E as D, E flat and F flat where the feet gain by it', () => {
    expect(stringsOf({ upper: 'D4/1:4 D#4/1:4 E4/1:4 D#4/1:4 D4/1', quartersPerMinute: 200 })).toEqual([
      'D4',
      'E♭4',
      'F♭4',
      'E♭4',
      'D4',
    ]);
  });

  it('reads A, A sharp and B as A, B flat and C flat', () => {
    expect(stringsOf({ upper: 'A4/1:4 A#4/1:4 B4/1:4 A#4/1:4 A4/1', quartersPerMinute: 200 })).toEqual([
      'A4',
      'B♭4',
      'C♭5',
      'B♭4',
      'A4',
    ]);
  });

  it('reads D, D sharp and E in one chord so too: the E makes room', () => {
    expect(stringsOf({ upper: 'D4+D#4+E4/4' })).toEqual(['D4', 'E♭4', 'F♭4']);
  });

  it('lists every note that it respells', () => {
    const plan = freely(smallPart({ upper: 'D4+D#4+E4/2 D4+D#4+E4/2' }));
    expect(plan.respellings).toHaveLength(4);
  });

  it('proves the fewest moves beside a trill whose neighbour may be played on another string', () => {
    const { summary } = freely(smallPart({ upper: 'B3+C4+D4/1 C#4/1 B3+C4+D4/1 E4/1tr(F4)' }));
    expect(summary).toMatchObject({ moves: 2, minMoves: 2 });
  });

  it('claims no more than holds for feet that may cross or move two pedals at once', () => {
    const score = smallPart({
      upper: 'A3+B3+C4+D4/1:4 C#4+D4+Bb4/1 A3+C#4+D4/1',
      quartersPerMinute: 200,
    });
    const crossing = { ...DEFAULT_PLAN_OPTIONS, crossFeet: true };
    expect(planPedals(score, crossing).summary).toMatchObject({ moves: 2, playable: true });
    // B flat as A sharp: a move more, and no last resort.
    expect(freely(score).summary).toMatchObject({ moves: 3, minMoves: 3 });
    for (const lastResort of [crossing, { ...DEFAULT_PLAN_OPTIONS, pedalsTogether: true }]) {
      const { summary } = planPedals(score, { ...lastResort, spelling: 'free' });
      expect(summary.moves).toBe(3);
      expect(summary.minMoves).toBeLessThanOrEqual(2);
    }
  });

  it('makes no claim of the fewest moves through endings', () => {
    const part = { upper: 'D4/1 Db4/1 D4/1 Db4/1 | C4/4 | D#4/4', playOrder: [0, 1, 0, 2] };
    const { summary } = freely(smallPart(part));
    expect(summary.minMoves).toBeLessThanOrEqual(summary.moves);
  });
});

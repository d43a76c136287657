import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rational } from '../../../../engine/music/rational.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import { smallPart } from '../../../part-builder.ts';
import '../../../property-seed.ts';
import { cases } from '../../../thorough.ts';
import { ornatePart } from '../ornate-parts.ts';

/** The places that cannot be played, by what is wrong there and by its notes. */
const stopsOf = (score: Score): readonly string[] =>
  planPedals(score)
    .findings.filter(({ severity }) => severity === 'stop')
    .flatMap(({ code, places }) =>
      places.map(({ bar, beat }) => `${code} in bar ${bar + 1}, beat ${beat.num}/${beat.den}`),
    )
    .sort();

const anyPart = fc.oneof(ornatePart(60, [0, 1]), ornatePart(150, [0, 1]), ornatePart(100, [0, 1, 0, 1]));

const otherHands = (score: Score): Score => ({
  ...score,
  notes: score.notes.map((note) => ({ ...note, staff: 3 - note.staff, hand: null })),
});

/** Every note that is a single pluck ends as it begins; trills and glissandi keep their lengths. */
const shortened = (score: Score): Score => {
  const swept = new Set(score.sweeps.flatMap(({ from, to }) => [from, to]));
  return {
    ...score,
    notes: score.notes.map((note) =>
      note.ornament !== null || swept.has(note.id) || note.grace !== null
        ? note
        : { ...note, duration: rational(1, 64) },
    ),
  };
};

describe('a place that stops the player', () => {
  it('is no other where every note goes to the other hand: what stops a harpist are strings and feet', () => {
    fc.assert(
      fc.property(anyPart, (score) => {
        expect(stopsOf(otherHands(score))).toEqual(stopsOf(score));
      }),
      { numRuns: cases(40) },
    );
  });

  it('is no other where every single pluck is written as short as can be: its pedal is asked for as it is plucked', () => {
    fc.assert(
      fc.property(anyPart, (score) => {
        expect(stopsOf(shortened(score))).toHaveLength(stopsOf(score).length);
      }),
      { numRuns: cases(40) },
    );
  });

  it('can go where a trill ends earlier, which is told: C5–D5 held while D♭ is plucked', () => {
    const [held, short] = ['C5/2tr(D5) r/2', 'C5/1tr(D5) r/3'].map((upper) =>
      smallPart({ upper, lower: 'r/1 Db3/1 r/2' }),
    );
    expect(stopsOf(held!)).toHaveLength(1);
    expect(stopsOf(short!)).toEqual([]);
    const told = planPedals(held!).findings.flatMap(({ suggestions }) => suggestions);
    expect(told.join(' ')).toContain('End the ');
  });
});

import fc from 'fast-check';
import type { Decisions } from '../../../engine/decisions/model.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';

const beat = fc
  .tuple(fc.nat(999_999_999), fc.option(fc.integer({ min: 1, max: 999_999 }), { nil: null }))
  .map(([num, den]) => (den === null ? `${num}` : `${num}/${den}`));

const place = fc.record({ barIndex: fc.nat(1_000_000), beat });

const aim = { pedal: fc.constantFrom(...LETTERS), position: fc.constantFrom('flat', 'natural', 'sharp') };

const pitch = fc.string({ unit: 'grapheme', maxLength: 10 });

const notesAt = fc
  .tuple(
    place,
    pitch,
    fc.option(fc.integer({ min: 1, max: 99 }), { nil: null }),
    fc.option(fc.nat(999), { nil: null }),
  )
  .map(([at, name, staff, grace]) => ({
    ...at,
    pitch: name,
    ...(staff === null ? {} : { staff }),
    ...(grace === null ? {} : { grace }),
  }));

/** Any decisions that the types allow, the places and pitches being in no score in particular. */
export const anyDecisions: fc.Arbitrary<Decisions> = fc.record({
  pins: fc.array(
    fc.oneof(
      fc.record({ kind: fc.constant('move' as const), ...aim, at: place }),
      fc.record({ kind: fc.constant('forbid' as const), from: place, until: place }),
      fc.record({
        kind: fc.constant('position' as const),
        ...aim,
        from: place,
        until: fc.option(place, { nil: null }),
      }),
    ),
    { maxLength: 4 },
  ),
  respell: fc.array(
    fc.tuple(notesAt, pitch).map(([at, to]) => ({ ...at, to })),
    { maxLength: 4 },
  ),
  omit: fc.array(notesAt, { maxLength: 4 }),
  delays: fc.array(
    fc.tuple(notesAt, beat).map(([at, toBeat]) => ({ ...at, toBeat })),
    { maxLength: 4 },
  ),
  fullSettings: fc.array(
    fc.tuple(place, fc.boolean()).map(([at, print]) => ({ ...at, print })),
    { maxLength: 4 },
  ),
  cueParts: fc.array(
    fc
      .tuple(place, fc.option(fc.string({ unit: 'grapheme', maxLength: 10 }), { nil: null }))
      .map(([at, part]) => ({ ...at, part })),
    { maxLength: 4 },
  ),
  tempos: fc.array(
    fc.record({
      from: place,
      until: fc.option(place, { nil: null }),
      quartersPerMinute: fc.integer({ min: 5, max: 2000 }),
    }),
    { maxLength: 4 },
  ),
});

import fc from 'fast-check';
import type { DecisionPin, Decisions } from '../../../engine/decisions/model.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import { type Decision, listDecisions } from '../../../server/page/client/decisions/decision-edits.ts';

const place = fc.record({ barIndex: fc.nat(9), beat: fc.constantFrom('1', '2', '5/2', '3') });
const aim = {
  pedal: fc.constantFrom(...LETTERS),
  position: fc.constantFrom('flat' as const, 'natural' as const, 'sharp' as const),
};
const notes = fc.record({
  barIndex: fc.nat(9),
  beat: fc.constantFrom('1', '2'),
  pitch: fc.constantFrom('C♯4', 'F4'),
});

const pin: fc.Arbitrary<DecisionPin> = fc.oneof(
  fc.record({ kind: fc.constant('move' as const), ...aim, at: place }),
  fc.record({
    kind: fc.constant('position' as const),
    ...aim,
    from: place,
    until: fc.option(place, { nil: null }),
  }),
  fc.record({ kind: fc.constant('forbid' as const), from: place, until: place }),
);

/** Any decision that a user can make, over few places so that decisions meet. */
export const anyDecision: fc.Arbitrary<Decision> = fc.oneof(
  fc.record({ kind: fc.constant('pin' as const), pin }),
  fc.record({
    kind: fc.constant('respell' as const),
    notes: notes.chain((at) =>
      fc.record({ to: fc.constantFrom('D♭4', 'E♯4') }).map((to) => ({ ...at, ...to })),
    ),
  }),
  fc.record({ kind: fc.constant('omit' as const), notes }),
  fc.record({
    kind: fc.constant('delay' as const),
    notes: notes.chain((at) => fc.constantFrom('2', '3').map((toBeat) => ({ ...at, toBeat }))),
  }),
  fc.record({
    kind: fc.constant('setting' as const),
    setting: place.chain((at) => fc.boolean().map((print) => ({ ...at, print }))),
  }),
);

export const countOf = (decisions: Decisions): number => listDecisions(decisions).length;

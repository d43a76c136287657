import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { followBars } from '../../../engine/decisions/follow-bars.ts';
import { describeFollowed, followDecisions } from '../../../engine/decisions/follow-decisions.ts';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

/** A part of bars of one note each. */
const part = (...bars: readonly string[]) =>
  smallPart({ upper: bars.map((name) => `${name}/4`).join(' | ') });

const whereBarsWent = (before: readonly string[], after: readonly string[]) =>
  followBars(part(...before), part(...after)).to;

describe('bars that are followed', () => {
  it('are found again behind bars that came in before them, and are gone where they were cut', () => {
    expect(whereBarsWent(['C4', 'D4', 'E4'], ['G4', 'A4', 'C4', 'D4', 'E4'])).toEqual([2, 3, 4]);
    expect(whereBarsWent(['C4', 'D4', 'E4'], ['C4', 'E4'])).toEqual([0, null, 1]);
  });

  it('are the same bars when they are rewritten where they stand', () => {
    expect(whereBarsWent(['C4', 'D4', 'E4'], ['C4', 'F4', 'E4'])).toEqual([0, 1, 2]);
    expect(whereBarsWent(['C4', 'D4', 'E4'], ['G4', 'C4', 'D#4', 'E4'])).toEqual([1, 2, 3]);
  });

  it('keep their order, and those of a part that grew at any place are all found', () => {
    const names = fc.array(fc.constantFrom('C4', 'D4', 'E4', 'F4'), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(names, names, fc.nat(8), (old, added, at) => {
        const place = Math.min(at, old.length);
        const now = [...old.slice(0, place), ...added, ...old.slice(place)];
        const to = whereBarsWent(old, now);
        expect(to.map((bar) => now[bar!])).toEqual(old);
        expect(to).toEqual([...to].sort((a, b) => a! - b!));
      }),
      { numRuns: cases(40) },
    );
  });
});

describe('decisions on a followed score', () => {
  const decided: Decisions = {
    ...NO_DECISIONS,
    omit: [{ barIndex: 1, beat: '1', pitch: 'D4' }],
    pins: [
      { kind: 'move', pedal: 'C', position: 'sharp', at: { barIndex: 2, beat: '3' } },
      {
        kind: 'position',
        pedal: 'A',
        position: 'flat',
        from: { barIndex: 0, beat: '1' },
        until: { barIndex: 2, beat: '1' },
      },
      { kind: 'forbid', from: { barIndex: 1, beat: '1' }, until: { barIndex: 1, beat: '4' } },
    ],
  };
  const follow = (after: readonly string[]) => {
    const [old, now] = [part('C4', 'D4', 'E4'), part(...after)];
    const followed = followDecisions(decided, followBars(old, now));
    return { ...followed, told: describeFollowed(decided, followed, old, now) };
  };

  it('go along with their bars, and it is told which', () => {
    const { decisions, told } = follow(['G4', 'C4', 'D4', 'E4']);
    expect(decisions.omit).toEqual([{ barIndex: 2, beat: '1', pitch: 'D4' }]);
    expect(decisions.pins.map((pin) => ('at' in pin ? pin.at.barIndex : pin.from.barIndex))).toEqual([
      3, 1, 2,
    ]);
    expect(told).toEqual([
      'Decisions went along with 3 bars: bar 1 to bar 2, bar 2 to bar 3 and bar 3 to bar 4',
    ]);
  });

  it('are gone with their bars, by name; a span lives on in the bars that are left of it', () => {
    const { decisions, gone, told } = follow(['C4', 'E4']);
    expect(gone).toEqual([
      { list: 'pins', index: 2 },
      { list: 'omit', index: 0 },
    ]);
    expect(decisions.pins).toEqual([
      { kind: 'move', pedal: 'C', position: 'sharp', at: { barIndex: 1, beat: '3' } },
      { ...decided.pins[1], until: { barIndex: 1, beat: '1' } },
    ]);
    expect(told.slice(1)).toEqual([
      'The passage without moves that begins in bar 2, beat 1 is gone with its bar',
      'The decision to leave out D4 in bar 2, beat 1 is gone with its bar',
    ]);
  });

  it('stay as they are where no bar moved', () => {
    const bars = followBars(part('C4', 'D4', 'E4'), part('C4', 'F4', 'E4', 'G4'));
    expect(followDecisions(decided, bars).decisions).toBe(decided);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { DEFAULT_PROOF_OPTIONS, proofScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';

/** Codes of what stops the player when the part is played by the markings printed for feet that rest so long. */
const stopsWhenPrinted = (score: Score, footRestSeconds: number): readonly string[] => {
  const weights = { ...DEFAULT_OPTIONS.weights, footRestSeconds };
  const plan = planPedals(score, { ...DEFAULT_OPTIONS, weights });
  if (!plan.summary.playable) return [];
  const marked = { ...score, markings: printPlan(score, plan) };
  const { findings } = proofScore(marked, { ...DEFAULT_PROOF_OPTIONS, weights });
  return findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);
};

const withRehearsalAt = (score: Score, bar: number): Score => ({
  ...score,
  landmarks: [{ at: score.bars[bar]!.onset, bar, kind: 'rehearsal', text: 'A' }],
});

describe('a setting printed in a rest', () => {
  // Two bars of rest of a second each, parted by a rehearsal mark; three pedals of the left foot move in them.
  const score = withRehearsalAt(
    smallPart({ upper: 'D4+C4+B4/4 | r/4 | r/4 | D#4+C#4+Bb4/4 | r/4 | r/4', quartersPerMinute: 240 }),
    2,
  );

  it.each([0.25, 0.4, 1])('leaves a foot that needs %f s the time that the user asks for', (rest) => {
    expect(stopsWhenPrinted(score, rest)).toEqual([]);
  });

  it('leaves it in whatever stands about the rest', () => {
    const bar = fc.constantFrom(
      'D4+C4+B4/4',
      'D#4+C#4+Bb4/4',
      'E4/1 Eb4/3',
      'F#4+G#4+A4/4',
      'r/4',
      'r/2 C#4/2',
    );
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 4, maxLength: 8 }),
        fc.nat(3),
        fc.constantFrom(0.25, 0.5, 1),
        (bars, rehearsal, rest) => {
          const part = smallPart({ upper: bars.join(' | '), quartersPerMinute: 240 });
          expect(stopsWhenPrinted(withRehearsalAt(part, rehearsal), rest)).toEqual([]);
        },
      ),
    );
  });
});

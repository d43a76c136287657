import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { MarksAt } from '../../../engine/proof/play-by-markings.ts';
import { DEFAULT_PROOF_OPTIONS, proofreadScore } from '../../../engine/proof/proof.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';

/** Codes of what stops the player when the part is played by the markings printed for feet that rest so long. */
const stopsWhenPrinted = (
  score: Score,
  footRestSeconds: number,
  marksAt: MarksAt = 'foot',
): readonly string[] => {
  const weights = { ...DEFAULT_PLAN_OPTIONS.weights, footRestSeconds };
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, weights });
  if (!plan.summary.playable) return [];
  const marked = { ...score, markings: printPlan(score, plan, { marksAt }) };
  const { findings } = proofreadScore(marked, { ...DEFAULT_PROOF_OPTIONS, weights, marksAt });
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
        fc.constantFrom('foot' as const, 'note' as const),
        (bars, rehearsal, rest, marksAt) => {
          const part = smallPart({ upper: bars.join(' | '), quartersPerMinute: 240 });
          expect(stopsWhenPrinted(withRehearsalAt(part, rehearsal), rest, marksAt)).toEqual([]);
        },
      ),
    );
  });
});

describe('changes printed at the notes that need them', () => {
  // Two pedals of one foot, of which one has to be early.
  const score = smallPart({ upper: 'C4+D4/1 r/1 E4/2 | C#4+D#4/4' });

  it('are right however the proof takes them: what would be too much for one foot at the note stands before it', () => {
    const marked = { ...score, markings: printPlan(score, planPedals(score), { marksAt: 'note' }) };
    const proofOf = (marksAt: MarksAt) => proofreadScore(marked, { ...DEFAULT_PROOF_OPTIONS, marksAt });
    expect(proofOf('note')).toMatchObject({ findings: [], correct: true });
    expect(proofOf('foot')).toMatchObject({ findings: [], correct: true });
  });
});

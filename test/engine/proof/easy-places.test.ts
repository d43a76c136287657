import { describe, expect, it } from 'vitest';
import { equals } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { applyFixes } from '../../../engine/proof/apply-fixes.ts';
import type { Proof } from '../../../engine/proof/model.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';
import { drawFrom } from './plant-faults.ts';

const UNEASY: readonly string[] = ['marking-late', 'marking-early', 'marking-bends-string'];

const uneasyIn = ({ findings }: Proof) => findings.filter(({ code }) => UNEASY.includes(code));

/** A part of which only the first setting is printed. */
const withFirstMarking = (score: Score): { score: Score; markings: readonly SourceMarking[] } => ({
  score,
  markings: printPlan(score, planPedals(score)).slice(0, 1),
});

const NAMES = ['C4', 'C#4', 'D4', 'D#4', 'Eb4', 'F4', 'F#4', 'G4', 'A4', 'Bb4', 'B4', 'C3', 'G2', 'G#2'];

const randomPart = (seed: number): Score => {
  const draw = drawFrom(seed);
  const bars = Array.from({ length: 2 + draw(4) }, () => {
    const count = 1 + draw(4);
    return Array.from({ length: count }, () => `${NAMES[draw(NAMES.length)]}/4:${count}`).join(' ');
  });
  return smallPart({ upper: bars.join(' | ') });
};

/** What the repair wrote itself, not what it left where the file has it. */
const isWritten = (markings: readonly SourceMarking[], { at, positions }: SourceMarking): boolean =>
  !markings.some(
    (own) =>
      equals(own.at, at) &&
      Object.keys(positions).every((letter) => Object.keys(own.positions).includes(letter)),
  );

describe('what a repair writes', () => {
  it('stands clear of strings that sound on, where two pedals can be printed together later', () => {
    const part = smallPart({ upper: 'C#4/4:3 G#2/4:3 D4/4:3 | G4/4 | D#4/4' });
    const { score, markings } = withFirstMarking(part);
    const { repair } = proofreadScore({ ...score, markings });
    expect(repair.edits).toMatchObject([
      {
        fixes: [
          { kind: 'add', bar: 1 },
          { kind: 'add', bar: 1 },
        ],
      },
    ]);
    expect(uneasyIn(proofreadScore({ ...score, markings: repair.markings }))).toEqual([]);
  });

  it('is told as late, early or under a sounding string only where no other place is easier', () => {
    let told = 0;
    for (let seed = 0; seed < 80; seed += 1) {
      const { score, markings } = withFirstMarking(randomPart(seed));
      const { repair } = proofreadScore({ ...score, markings });
      const repaired = { ...score, markings: repair.markings };
      const after = proofreadScore(repaired);
      const uneasy = uneasyIn(after);
      for (const { fix } of uneasy) {
        if (fix?.kind !== 'move' || !isWritten(markings, repair.markings[fix.marking]!)) continue;
        told += 1;
        const { at, bar, beat } = fix;
        const here = repair.markings[fix.marking]!.at;
        const together = applyFixes(
          repair.markings,
          repair.markings.flatMap((marking, index) =>
            equals(marking.at, here) ? [{ kind: 'move-marking', marking: index, at, bar, beat }] : [],
          ),
        );
        const elsewhere = proofreadScore({ ...score, markings: together.markings });
        const isNoBetter = !elsewhere.correct || uneasyIn(elsewhere).length >= uneasy.length;
        expect(isNoBetter, `part ${seed}`).toBe(true);
      }
    }
    expect(told).toBeGreaterThan(0);
  });

  it('is not told as late beside the change of a pedal that has only just played', () => {
    const part = smallPart({ upper: 'G4/4 | D4/4 | D4/4 | D#4+G#4/4' });
    const { score, markings } = withFirstMarking(part);
    const { repair } = proofreadScore({ ...score, markings });
    expect(repair.edits).toMatchObject([
      {
        fixes: [
          { kind: 'add', bar: 3 },
          { kind: 'add', bar: 3 },
        ],
      },
    ]);
    expect(proofreadScore({ ...score, markings: repair.markings }).findings).toEqual([]);
  });
});

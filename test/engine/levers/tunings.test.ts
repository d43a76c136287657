import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { OpenTuning } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { type LeverContext, prepareLevers } from '../../../engine/levers/context.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { buildLeverProblem } from '../../../engine/levers/problem.ts';
import {
  allTunings,
  boundTuningCosts,
  compareTunings,
  costTuning,
  keyTunings,
  pickTunings,
} from '../../../engine/levers/tuning/tunings.ts';
import { LEVER_WEIGHTS, type LeverWeights } from '../../../engine/levers/weights.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

const better = compareTunings(LEVER_WEIGHTS);

/** Each note on its own string where that gives it: what the bounds count. */
const AS_WRITTEN: LeverWeights = { ...LEVER_WEIGHTS, neighbourNote: Number.POSITIVE_INFINITY };

const findBestTunings = (stage: LeverContext, tunings: readonly OpenTuning[], most: number) =>
  pickTunings(boundTuningCosts(stage, tunings), better, most);

const chromaticPart = fc
  .record({
    notes: fc.array(
      fc.record({
        letter: fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
        sign: fc.constantFrom('', '', '', '#', 'b', '##', 'bb'),
        octave: fc.constantFrom(3, 4, 7),
      }),
      { minLength: 12, maxLength: 12 },
    ),
    order: fc.constantFrom([0, 1, 2], [0, 1, 0, 1, 2], [0, 1, 2, 0]),
  })
  .map(({ notes, order }): Score => {
    const names = notes.map(({ letter, sign, octave }) => `${letter}${sign}${octave}/1`);
    const bars = [0, 4, 8].map((from) => names.slice(from, from + 4).join(' '));
    return smallPart({ upper: bars.join(' | '), playOrder: order });
  });

describe('the best tunings', () => {
  it('of the key signatures are those that costing every one finds', () => {
    fc.assert(
      fc.property(chromaticPart, (score) => {
        const stage = prepareLevers(score, DEFAULT_LEVER_OPTIONS, AS_WRITTEN);
        const all = keyTunings(stage).map((tuning) => costTuning(stage, buildLeverProblem(stage, tuning)));
        expect(all).toHaveLength(15);
        expect(findBestTunings(stage, keyTunings(stage), 4)).toEqual(all.sort(better).slice(0, 4));
      }),
      { numRuns: cases(40) },
    );
  });

  it('of the key signatures are so with notes on neighbouring strings too, where all are wanted', () => {
    fc.assert(
      fc.property(chromaticPart, (score) => {
        const stage = prepareLevers(score, DEFAULT_LEVER_OPTIONS);
        const all = keyTunings(stage).map((tuning) => costTuning(stage, buildLeverProblem(stage, tuning)));
        expect(findBestTunings(stage, keyTunings(stage), 15)).toEqual(all.sort(better));
      }),
      { numRuns: cases(20) },
    );
  });

  it('of all 2,187 is the one that costing every one finds', () => {
    fc.assert(
      fc.property(chromaticPart, (score) => {
        const stage = prepareLevers(score, DEFAULT_LEVER_OPTIONS, AS_WRITTEN);
        const all = allTunings(stage).map((tuning) => costTuning(stage, buildLeverProblem(stage, tuning)));
        const [best] = findBestTunings(stage, allTunings(stage), 1);
        const [least] = all.sort(better);
        expect(better(best!, least!)).toBe(0);
      }),
      { numRuns: 2 },
    );
  });

  it('put E flat first among tunings that serve alike', () => {
    const stage = prepareLevers(smallPart({ upper: 'C4/1 D4/1 G4/1 C5/1' }), DEFAULT_LEVER_OPTIONS);
    expect(findBestTunings(stage, keyTunings(stage), 6).map(({ name }) => name)[0]).toBe('E♭ major');
  });

  it('serve a piece without a change before any that would need one', () => {
    const tuning = LEVER_HARP.tuning;
    const noFailure = { tuning, missingNotes: 0, respelled: 40, retuned: 34 };
    const oneChange = { tuning, missingNotes: 0, changes: 1, respelled: 0, retuned: 0 };
    expect(better({ ...noFailure, changes: 0 }, oneChange)).toBeLessThan(0);
  });
});

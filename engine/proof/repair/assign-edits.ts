import { type Rational, toNumber } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { MarkingFix } from '../model.ts';
import type { TrialOutcome, Trials } from '../trials.ts';
import { placeOf } from './edit-dependencies.ts';
import type { PartRepair } from './repair-part.ts';

/** The edits that rid of some faults, by their keys, with those they depend on; none where no edit does. */
export type EditsFor = (keys: readonly string[], at: Rational) => readonly MarkingFix[];

/** Sees which edits belong to which faults. @param at where the faults are: of edits that do alike the nearest is taken */
export const assignEdits = (repair: PartRepair, score: Score, trials: Trials): EditsFor => {
  const { edits, sets } = repair;
  const fixesOf = (indices: readonly number[]): readonly MarkingFix[] =>
    indices.flatMap((index) => edits[index]!.fixes);
  const known = new Map<string, TrialOutcome | null>();
  const outcomeOf = (indices: readonly number[]): TrialOutcome | null => {
    const key = indices.join();
    if (!known.has(key)) known.set(key, trials.after(fixesOf(indices), null));
    return known.get(key)!;
  };
  const leftBy = (indices: readonly number[], faults: readonly string[]): number => {
    const outcome = outcomeOf(indices);
    return outcome === null ? faults.length : faults.filter((key) => outcome.faults.has(key)).length;
  };
  const present = trials.before(null).faults;
  return (keys, at) => {
    const faults = keys.filter((key) => present.has(key));
    const distance = (index: number): number => Math.abs(placeOf(edits[index]!.fixes, score) - toNumber(at));
    const order = edits
      .map((_, index) => index)
      .sort((a, b) => distance(a) - distance(b))
      .slice(0, MOST_LOOKED_AT);
    let chosen: readonly number[] = [];
    let left = faults.length;
    while (left > 0) {
      const tries = order
        .map((index) => unite(chosen, [index], sets))
        .map((indices) => ({ indices, left: leftBy(indices, faults) }));
      const best = tries.reduce<(typeof tries)[number] | null>(
        (known, each) => (isBetter(each, known) ? each : known),
        null,
      );
      if (best === null || best.left >= left) {
        // None helps alone: the nearest together may.
        const together = order.map((_, count) => unite(chosen, order.slice(0, count + 1), sets));
        return fixesOf(together.find((indices) => leftBy(indices, faults) < left) ?? chosen);
      }
      chosen = best.indices;
      left = best.left;
    }
    return fixesOf(chosen);
  };
};

/** Edits with more of them and what those depend on. */
const unite = (
  chosen: readonly number[],
  more: readonly number[],
  sets: PartRepair['sets'],
): readonly number[] =>
  [...new Set([...chosen, ...more.flatMap((index) => sets[index]!.edits)])].sort((a, b) => a - b);

/** Edits near a fault that may belong to it. */
const MOST_LOOKED_AT = 6;

interface Try {
  readonly indices: readonly number[];
  readonly left: number;
}

const isBetter = (each: Try, known: Try | null): boolean =>
  known === null ||
  each.left < known.left ||
  (each.left === known.left && each.indices.length < known.indices.length);

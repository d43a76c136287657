import type { Decisions } from '../../../../../engine/index.ts';
import { areDecided, decisionKey } from '../../decisions/decision-edits.ts';
import { decisionsOfFix, type StopFix } from './stop-fixes.ts';

/**
 * The fixes of a list that were tried: all that they decide is decided, and not by another of them that decides more. What
 * another harp plays is left out here too, and nothing tells that it was given away.
 */
export const triedFixes = <Fix extends StopFix>(
  fixes: readonly Fix[],
  decisions: Decisions,
): ReadonlySet<Fix> => {
  const decided = fixes
    .filter(({ kind }) => kind !== 'second-harp')
    .map((fix) => ({ fix, made: decisionsOfFix(fix) }))
    .filter(({ made }) => made.length > 0 && areDecided(decisions, made))
    .map(({ fix, made }) => ({ fix, keys: new Set(made.map(decisionKey)) }));
  return new Set(
    decided
      .filter(
        ({ keys }) =>
          !decided.some(
            (other) => other.keys.size > keys.size && [...keys].every((key) => other.keys.has(key)),
          ),
      )
      .map(({ fix }) => fix),
  );
};

import type { OpenTuning } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import type { LeverMove, LeverPlan } from '../levers/model.ts';
import { stepOf } from '../music/pitch.ts';
import { compare, equals, type Rational } from '../music/rational.ts';
import { alterWith } from '../proof/levers/lever-edits.ts';
import type { LeverFix } from '../proof/levers/model.ts';
import type { StatedLevers } from '../proof/levers/stated-levers.ts';
import type { Score } from '../score/model/score.ts';

/** A change that the repair writes. */
type Added = LeverFix & { readonly kind: 'add' };

/** A change that is missing, and from when on notes go wrong for want of it. */
export type MissingLever = Added & { readonly from: Rational };

/** What an attempt says, by the texts of the score. */
interface Written {
  readonly score: Pick<Score, 'leverWords'>;
  readonly stated: Pick<StatedLevers, 'said'>;
  readonly tuning: OpenTuning;
}

/**
 * Where the changes that are missing belong. A repair writes one before the note that goes wrong, on whichever pass that
 * is; where the plan has a single change of that lever that the pupil left out, as before the sign that ends a repeat,
 * that is the one that is missing, even if the repair needs two in its place.
 *
 * @param fixes all of the repair: a lever of which it changes what is written is left as it is
 */
export const placeMissing = (
  added: readonly Added[],
  fixes: readonly LeverFix[],
  { moves }: Pick<LeverPlan, 'moves'>,
  written: Written,
): readonly MissingLever[] => {
  const placed = added.map((fix): MissingLever => {
    const from = fix.at;
    const own = moves.filter(({ string }) => isSame(string, fix.string));
    const left = own.filter((move, i) => !isWritten(move, own[i - 1], own[i + 1], written));
    const [meant] = left;
    const isPlain = fixes.every(
      (other) => !isSame(other.string, fix.string) || (other.kind === 'add' && other.alter === fix.alter),
    );
    if (meant === undefined || left.length > 1 || meant.alter !== fix.alter || !isPlain)
      return { ...fix, from };
    const { at, bar, beat } = meant;
    return { ...fix, at, bar, beat, from };
  });
  return placed.filter(
    (fix, i) =>
      placed.findIndex((other) => isSame(other.string, fix.string) && equals(other.at, fix.at)) === i,
  );
};

const isSame = (a: HarpString, b: HarpString): boolean => stepOf(a) === stepOf(b);

/** Whether a text says the same of this lever after the plan's change before it, and before the one after. */
const isWritten = (
  { string, alter }: LeverMove,
  before: LeverMove | undefined,
  after: LeverMove | undefined,
  { score, stated, tuning }: Written,
): boolean =>
  score.leverWords.some(({ at }, i) => {
    const said = stated.said[i]?.get(stepOf(string));
    return (
      said !== undefined &&
      alterWith(tuning, string, said.place) === alter &&
      (before === undefined || compare(at, before.at) > 0) &&
      (after === undefined || compare(at, after.at) < 0)
    );
  });

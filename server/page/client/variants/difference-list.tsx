import { type Move, rationalKey, toNumber } from '../../../../engine/index.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Spot } from '../selection/spot.ts';
import type { ComparedPlan } from './other-plan.ts';

const words = VARIANT_STRINGS;

interface Difference {
  /** Where it is gone to. */
  readonly move: Move;
  readonly sentence: string;
}

const listDifferences = (
  { bars, plan }: PlannedPart,
  { plan: other, difference }: ComparedPlan,
): readonly Difference[] => {
  const placeOf = ({ bar, beat }: Move): string => words.place(bars[bar]!.number, rationalKey(beat));
  return [
    ...difference.elsewhere.map((pair) => {
      const [move, there] = [plan.moves[pair.here]!, other.moves[pair.there]!];
      return { move, sentence: words.elsewhere(move.letter, move.to, placeOf(move), placeOf(there)) };
    }),
    ...difference.onlyHere.map((at) => {
      const move = plan.moves[at]!;
      return { move, sentence: `${words.onlyHere(move.letter, move.to)}, ${placeOf(move)}` };
    }),
    ...difference.onlyThere.map((at) => {
      const move = other.moves[at]!;
      return { move, sentence: `${words.onlyThere(move.letter, move.to)}, ${placeOf(move)}` };
    }),
  ].sort((a, b) => toNumber(a.move.at) - toNumber(b.move.at));
};

/** In what the two plans differ, each difference to be gone to. */
export const DifferenceList = ({
  part,
  compared,
  onGo,
}: {
  readonly part: PlannedPart;
  readonly compared: ComparedPlan;
  readonly onGo: (spot: Spot) => void;
}) => {
  const differences = listDifferences(part, compared);
  if (differences.length === 0) return <p role="status">{words.same}</p>;
  return (
    <>
      <p role="status">{words.differ(differences.length)}</p>
      <ul class="differences">
        {differences.map(({ move, sentence }, i) => (
          <li key={i}>
            <button
              type="button"
              class="plain"
              onClick={() => onGo({ kind: 'place', bar: move.bar, quarters: toNumber(move.at) })}
            >
              {sentence}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
};

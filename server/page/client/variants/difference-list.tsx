import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { Difference } from './compared-plan.ts';

const words = VARIANT_STRINGS;

/** In what two plans differ, each difference to be gone to. */
export const DifferenceList = ({
  differences,
  onGo,
}: {
  readonly differences: readonly Difference[];
  readonly onGo: (place: Difference) => void;
}) => {
  if (differences.length === 0) return <p role="status">{words.same}</p>;
  return (
    <>
      <p role="status">{words.differ(differences.length)}</p>
      <ul class="differences">
        {differences.map((difference, i) => (
          <li key={i}>
            <button type="button" class="plain" onClick={() => onGo(difference)}>
              {difference.sentence}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
};

import type { PedalFinding } from '../../../../engine/findings/catalogue.ts';
import { STRINGS } from '../../strings.ts';
import type { Desk } from '../decisions/desk.ts';
import { addDecisions } from '../decisions/work-edits.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { decisionsOf } from './mend-decisions.ts';

const words = STRINGS.work;

/** What would mend a finding; what the program can do by itself has a button. */
export const Mends = ({
  part,
  finding: { suggestions, mends },
  desk,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly desk: Desk;
}) => {
  if (suggestions.length === 0 && mends.length === 0) return null;
  const told = new Set(mends.map(({ sentence }) => sentence));
  return (
    <ul class="mends">
      {mends.map(({ sentence, changes }) => (
        <li key={sentence}>
          <span>{sentence}</span>
          <button
            type="button"
            class="small"
            aria-label={words.applyWhat(sentence)}
            onClick={() =>
              desk.change(words.mended(sentence), addDecisions(desk.work, decisionsOf(part, changes)))
            }
          >
            {words.apply}
          </button>
        </li>
      ))}
      {suggestions
        .filter((each) => !told.has(each))
        .map((each) => (
          <li key={each}>{each}</li>
        ))}
    </ul>
  );
};

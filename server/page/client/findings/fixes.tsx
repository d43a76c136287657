import type { PedalFinding } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import { addDecisions } from '../decisions/decision-edits.ts';
import type { Desk } from '../decisions/desk.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';

const words = STRINGS.decisions;

/** What would fix a finding; what the program can do by itself has a button. */
export const Fixes = ({
  part,
  finding: { suggestions, fixes },
  desk,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly desk: Desk;
}) => {
  if (suggestions.length === 0 && fixes.length === 0) return null;
  const told = new Set(fixes.map(({ sentence }) => sentence));
  return (
    <ul class="fixes">
      {fixes.map(({ sentence, changes }) => (
        <li key={sentence}>
          <span>{sentence}</span>
          <button
            type="button"
            class="small"
            aria-label={words.applyWhat(sentence)}
            onClick={() =>
              desk.change(words.fixed(sentence), addDecisions(desk.decisions, decisionsOf(part, changes)))
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

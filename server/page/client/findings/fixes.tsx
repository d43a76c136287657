import type { NoteFix, PedalFinding } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { MusicWords } from '../controls/music-words.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { addDecisions } from '../decisions/decision-edits.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';
import { FixList, listSuggestions } from './fix-list.tsx';

const words = STRINGS.decisions;

/** What would fix a finding; what the program can do by itself has a button. */
export const Fixes = ({
  part,
  finding: { suggestions, fixes },
  actions,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly actions: DecisionActions;
}) => {
  const told = new Set(fixes.map(({ sentence }) => sentence));
  const items = [
    ...fixes.map((fix, i) => <Applicable key={i} part={part} actions={actions} fix={fix} />),
    ...listSuggestions(suggestions.filter((each) => !told.has(each))),
  ];
  return <FixList items={items} />;
};

const Applicable = ({
  part,
  actions,
  fix: { sentence, changes },
}: {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
  readonly fix: NoteFix;
}) => (
  <li>
    <span>
      <MusicWords>{sentence}</MusicWords>
    </span>
    <button
      type="button"
      class="small"
      aria-label={STRINGS.spokenDoubles(words.applyWhat(sentence))}
      onClick={() =>
        actions.change(words.fixed(sentence), addDecisions(actions.decisions, decisionsOf(part, changes)))
      }
    >
      {words.apply}
    </button>
  </li>
);

import type { ComponentChildren } from 'preact';
import {
  type Decisions,
  type NoteFix,
  type PedalFinding,
  suggestionsOf,
} from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { MusicWords } from '../../controls/music-words.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { addDecisions } from '../../decisions/decision-edits.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { decisionsOf } from './fix-decisions.ts';
import { FixList, listSuggestions } from './fix-list.tsx';
import { type PreviewedFix, usePreviewedFix } from './previewed-fix.ts';
import { ToSearched, useSearchedLists } from './searched-fixes.tsx';

const words = STRINGS.decisions;

/** What would fix a finding; what the program can do by itself has a button. What was searched has a list of its own. */
export const Fixes = ({
  part,
  finding,
  actions,
  atAll = null,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly actions: DecisionActions;
  /** What stands before them: what can be done at all places of the finding. */
  readonly atAll?: ComponentChildren;
}) => {
  const [first, ...others] = useSearchedLists(finding);
  if (first !== undefined) return <ToSearched lists={[first, ...others]} />;
  const { fixes } = finding;
  const told = new Set(fixes.map(({ sentence }) => sentence));
  const suggestions = suggestionsOf({ ...finding, fixes: [] });
  const items = [
    ...fixes.map((fix, i) => <Applicable key={i} {...{ part, finding, actions, fix }} />),
    ...listSuggestions(suggestions.filter((each) => !told.has(each))),
  ];
  return (
    <>
      {atAll}
      <FixList items={items} />
    </>
  );
};

/** What would be otherwise with a fix, in words; the score and the chart show where. */
const Outcome = ({ compared, solved }: Pick<PreviewedFix, 'compared' | 'solved'>) => {
  if (compared === null) return <p role="status">{words.previewing}</p>;
  const rows = compared.rows.filter(([, here, there]) => here !== there);
  return (
    <p role="status" class="outcome">
      {solved !== null && `${words.solved(solved, 'then')} `}
      {words.outcome(rows)}
    </p>
  );
};

/** A fix with what shows and what makes it. */
export const Applicable = ({
  part,
  finding,
  actions,
  fix: { sentence, changes },
  apply = words.apply,
  onApply,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly actions: DecisionActions;
  readonly fix: Pick<NoteFix, 'sentence' | 'changes'>;
  /** What stands on the button. */
  readonly apply?: string;
  /** Is told what is decided then. */
  readonly onApply?: (decisions: Decisions) => void;
}) => {
  const preview = usePreviewedFix();
  const isShown = preview?.sentence === sentence;
  const fixed = (): Decisions => addDecisions(actions.decisions, decisionsOf(part, changes));
  const make = (): void => {
    const decisions = fixed();
    onApply?.(decisions);
    actions.change(words.fixed(sentence, onApply === undefined ? finding.barName : null), decisions);
  };
  const { spokenDoubles } = STRINGS;
  return (
    <li>
      <span>
        <MusicWords>{sentence}</MusicWords>
        {isShown && <Outcome {...preview} />}
      </span>
      <span class="buttons">
        {preview !== null && (
          <button
            type="button"
            class="small"
            aria-pressed={isShown}
            aria-label={spokenDoubles(words.previewWhat(sentence))}
            onClick={() => preview.show(isShown ? null : { sentence, finding, decisions: fixed() })}
          >
            {words.preview}
          </button>
        )}
        <button
          type="button"
          class="small"
          aria-label={spokenDoubles(words.applyWhat(sentence, apply))}
          onClick={make}
        >
          {apply}
        </button>
      </span>
    </li>
  );
};

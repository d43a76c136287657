import type { NoteFix, PedalFinding } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { Desk } from '../decisions/desk.ts';
import { addDecisions } from '../decisions/work-edits.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { decisionsOf } from './mend-decisions.ts';

const words = STRINGS.work;

/** What would mend a finding; what the program can do by itself has a button. */
export const Mends = ({
  part,
  finding: { suggestions, fixes: mends },
  desk,
}: {
  readonly part: PlannedPart;
  readonly finding: PedalFinding;
  readonly desk: Desk;
}) => {
  if (suggestions.length === 0 && mends.length === 0) return null;
  const told = new Set(mends.map(({ sentence }) => sentence));
  const items = [
    ...mends.map((fix, i) => <Applicable key={i} part={part} desk={desk} fix={fix} />),
    ...suggestions.filter((each) => !told.has(each)).map((each) => <li key={each}>{each}</li>),
  ];
  const further = items.length - SHOWN_AT_ONCE;
  return (
    <>
      <ul class="mends">{items.slice(0, SHOWN_AT_ONCE)}</ul>
      {further > 0 && (
        <details class="more-mends">
          <summary>{STRINGS.findings.moreFixes(further)}</summary>
          <ul class="mends">{items.slice(SHOWN_AT_ONCE)}</ul>
        </details>
      )}
    </>
  );
};

/** A passage has the fixes of all its places. */
const SHOWN_AT_ONCE = 5;

const Applicable = ({
  part,
  desk,
  fix: { sentence, changes },
}: {
  readonly part: PlannedPart;
  readonly desk: Desk;
  readonly fix: NoteFix;
}) => (
  <li>
    <span>{sentence}</span>
    <button
      type="button"
      class="small"
      aria-label={words.applyWhat(sentence)}
      onClick={() => desk.change(words.mended(sentence), addDecisions(desk.work, decisionsOf(part, changes)))}
    >
      {words.apply}
    </button>
  </li>
);

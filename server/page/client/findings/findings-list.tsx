import { extentOf, orderForPeople, type PedalFinding } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import type { Desk } from '../decisions/desk.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Selection, Spot } from '../score/spot.ts';
import { Fixes } from './fixes.tsx';
import { ReadingRemarks } from './reading-remarks.tsx';
import { Suggestions } from './suggestions.tsx';

export const FindingsList = ({
  part,
  selection,
  onSelect,
  desk,
}: {
  readonly part: PlannedPart;
  readonly desk: Desk;
  readonly selection: Selection | null;
  readonly onSelect: (spot: Spot) => void;
}) => {
  const { findings: words } = STRINGS;
  const section = useKeptFocus();
  const spot = selection?.spot;
  const chosen = spot?.kind === 'finding' ? spot.finding : null;
  return (
    <section ref={section} class="findings">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {part.plan.findings.length === 0 && <p>{words.none}</p>}
      <ul>
        {orderForPeople<PedalFinding>(part.plan.findings).map(({ finding, at }) => (
          <li key={at}>
            <button
              type="button"
              class={`finding ${finding.severity}`}
              aria-pressed={chosen === at}
              onClick={() => onSelect({ kind: 'finding', finding: at })}
            >
              <span class="severity">{words.severity(finding.severity)}</span>
              <span class="place">{words.at(extentOf(finding))}</span>
              <span class="sentence">{finding.sentence}</span>
            </button>
            <Fixes part={part} finding={finding} desk={desk} />
          </li>
        ))}
      </ul>
      <Suggestions part={part} desk={desk} />
      <ReadingRemarks remarks={part.remarks} />
    </section>
  );
};

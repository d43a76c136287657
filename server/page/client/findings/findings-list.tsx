import { useMemo } from 'preact/hooks';
import { extentOf } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { useKeptFocus } from '../controls/kept-focus.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Selection, Spot } from '../selection/spot.ts';
import { FindingItems } from './finding-items.tsx';
import { Fixes } from './fixes/fixes.tsx';
import { Suggestions } from './fixes/suggestions.tsx';
import { TakenAtAll, useOutcome } from './fixes/taken-at-all.tsx';
import { likeChanges, likenessOf } from './like-findings.ts';
import { ReadingRemarks } from './reading-remarks.tsx';

export const FindingsList = ({
  part,
  selection,
  onSelect,
  actions,
}: {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
  readonly selection: Selection | null;
  readonly onSelect: (spot: Spot) => void;
}) => {
  const { findings: words } = STRINGS;
  const section = useKeptFocus();
  const outcome = useOutcome(part, actions.decisions);
  const spot = selection?.spot;
  const listed = useMemo(
    () =>
      part.plan.findings.map((finding) => ({
        ...finding,
        kind: words.title(finding.code),
        extent: extentOf(finding),
        alike: likenessOf(finding),
      })),
    [part.plan],
  );
  const chosen = spot?.kind === 'finding' ? spot.finding : null;
  return (
    <section ref={section} class="findings">
      <h2 tabIndex={-1}>{words.heading}</h2>
      {part.plan.findings.length === 0 && <p>{words.none}</p>}
      <FindingItems
        findings={listed}
        chosen={chosen}
        onChoose={(finding) => onSelect({ kind: 'finding', finding })}
        belowAlike={(all) => (
          <TakenAtAll
            findings={all.map((at) => part.plan.findings[at]!)}
            {...{ part, actions }}
            onTake={outcome.expect}
          />
        )}
        below={(at) => (
          <Fixes
            part={part}
            finding={part.plan.findings[at]!}
            actions={actions}
            atAll={
              likeChanges(part.plan.findings[at]!).length === 1 && (
                <TakenAtAll
                  findings={[part.plan.findings[at]!]}
                  {...{ part, actions }}
                  onTake={outcome.expect}
                />
              )
            }
          />
        )}
      />
      <p role="status" class="outcome">
        {outcome.told}
      </p>
      <Suggestions part={part} actions={actions} />
      <ReadingRemarks remarks={part.remarks} />
    </section>
  );
};

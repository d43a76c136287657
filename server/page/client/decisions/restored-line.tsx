import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { OpenedPart } from '../planner/engine-messages.ts';
import type { DecisionActions } from './decision-actions.ts';
import { listDecisions } from './decision-edits.ts';

const words = STRINGS.decisions;

/** Says that decisions of an earlier visit are in force, until it is understood. */
export const RestoredLine = ({
  opened: { origin, decisions },
  actions,
}: {
  readonly opened: Pick<OpenedPart, 'origin' | 'decisions'>;
  readonly actions: Pick<DecisionActions, 'startOver'>;
}) => {
  const [seen, setSeen] = useState(false);
  const count = listDecisions(decisions).length;
  if (seen || origin === 'none' || count === 0) return null;
  return (
    <div class="restored" role="status">
      <p>{words.restored[origin](count)}</p>
      <button type="button" class="small" onClick={() => setSeen(true)}>
        {words.understood}
      </button>
      <button
        type="button"
        class="small"
        onClick={() => {
          setSeen(true);
          actions.startOver();
        }}
      >
        {words.startOver}
      </button>
    </div>
  );
};

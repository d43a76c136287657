import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings.ts';
import { listDecisions } from '../decisions/decision-edits.ts';
import type { Desk } from '../decisions/desk.ts';
import type { OpenedPart } from '../planner/engine-messages.ts';

const words = STRINGS.decisions;

/** Says that decisions of an earlier visit are in force, until it is understood. */
export const RestoredLine = ({
  opened: { origin, decisions },
  desk,
}: {
  readonly opened: OpenedPart;
  readonly desk: Desk;
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
          desk.startAfresh();
        }}
      >
        {words.afresh}
      </button>
    </div>
  );
};

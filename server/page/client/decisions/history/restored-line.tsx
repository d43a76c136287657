import { useState } from 'preact/hooks';
import type { Decisions } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { OpenedPart } from '../../planner/engine-messages.ts';
import type { DecisionActions } from '../decision-actions.ts';
import { listDecisions } from '../decision-edits.ts';

const words = STRINGS.decisions;

const areSame = (a: Decisions, b: Decisions | undefined): boolean =>
  b !== undefined && JSON.stringify(a) === JSON.stringify(b);

/** Says that decisions of an earlier visit are in force, until it is understood. */
export const RestoredLine = ({
  opened: { origin, decisions },
  given,
  actions,
}: {
  readonly opened: Pick<OpenedPart, 'origin' | 'decisions'>;
  /** What the command that follows the file was given. */
  readonly given: Decisions | undefined;
  readonly actions: Pick<DecisionActions, 'startOver'>;
}) => {
  const [seen, setSeen] = useState(false);
  const count = listDecisions(decisions).length;
  if (seen || origin === 'none' || count === 0) return null;
  return (
    <div class="restored" role="status">
      <p>{words.restored[areSame(decisions, given) ? 'given' : origin](count)}</p>
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

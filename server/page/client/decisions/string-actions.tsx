import { callNotes } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { SmallStepButton } from '../controls/step-button.tsx';
import type { NotePlace } from '../planner/planned-part.ts';
import type { DecisionActions } from './decision-actions.ts';

/** A note of either harp is played on another string, or left out. */
export const StringActions = ({
  note: { notes, others },
  actions,
  leaveOut,
}: {
  readonly note: NotePlace;
  readonly actions: DecisionActions;
  /** What the button says that leaves it out. */
  readonly leaveOut: string;
}) => (
  <div class="buttons">
    {others.map((to) => (
      <SmallStepButton key={to} onClick={() => actions.decide({ kind: 'respell', notes: { ...notes, to } })}>
        {STRINGS.decisions.playAs(callNotes(notes), to)}
      </SmallStepButton>
    ))}
    <SmallStepButton onClick={() => actions.decide({ kind: 'omit', notes })}>{leaveOut}</SmallStepButton>
  </div>
);

/** A note that the user leaves out, which can be played again. */
export const OmittedNote = ({
  note: { notes },
  actions,
}: {
  readonly note: NotePlace;
  readonly actions: DecisionActions;
}) => (
  <p>
    {STRINGS.note.omitted}{' '}
    <SmallStepButton onClick={() => actions.remove({ kind: 'omit', notes })}>
      {STRINGS.note.playAgain}
    </SmallStepButton>
  </p>
);

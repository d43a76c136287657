import { useState } from 'preact/hooks';
import {
  LETTERS,
  type Letter,
  nameOfPosition,
  type Place,
  POSITIONS,
  type Position,
} from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { SelectList } from '../../controls/select-list.tsx';
import type { PlannedPart } from '../../planner/planned-part.ts';
import type { DecisionActions } from '../decision-actions.ts';
import { CueForm } from './cue-form.tsx';
import { PlaceFields } from './place-fields.tsx';
import { FoldedForms, ForbidForm, StayForm, TempoForm } from './shared-forms.tsx';

const words = STRINGS.decisions.forms;

interface FormProps {
  readonly part: PlannedPart;
  /** Where a passage begins before another start is chosen. */
  readonly begin: Place;
  readonly actions: DecisionActions;
}

/** The beats of a bar at which a note or a beat falls. */
const momentsIn = ({ moments }: PlannedPart, bar: number): readonly string[] => [
  ...new Set(moments.filter((moment) => moment.barIndex === bar).map(({ beat }) => beat)),
];

const SettingForm = ({ part, begin, actions }: FormProps) => {
  const [at, setAt] = useState(begin);
  const decide = (print: boolean): void => actions.decide({ kind: 'setting', setting: { ...at, print } });
  return (
    <fieldset>
      <legend>{words.setting}</legend>
      <PlaceFields
        part={part}
        label={words.at}
        place={at}
        beats={momentsIn(part, at.barIndex)}
        onChange={setAt}
      />
      <div class="buttons">
        <button type="button" class="small" onClick={() => decide(true)}>
          {words.print}
        </button>
        <button type="button" class="small" onClick={() => decide(false)}>
          {words.drop}
        </button>
      </div>
    </fieldset>
  );
};

const PositionForm = ({ part, begin, actions }: FormProps) => {
  const [pedal, setPedal] = useState<Letter>('D');
  const [position, setPosition] = useState<Position>(0);
  return (
    <StayForm
      part={part}
      begin={begin}
      heading={words.position}
      onAdd={(from, until) =>
        actions.decide({
          kind: 'pin',
          pin: { kind: 'position', pedal, position: nameOfPosition(position), from, until },
        })
      }
    >
      <SelectList label={words.pedal} value={pedal} values={LETTERS} onChange={setPedal} />
      <SelectList
        label={words.stays}
        value={position}
        values={POSITIONS}
        tell={STRINGS.position}
        onChange={setPosition}
      />
    </StayForm>
  );
};

/** Decisions that need no move or marking to begin with; the forms are made when they are opened. */
export const DecisionForms = ({
  barNow,
  ...props
}: Omit<FormProps, 'begin'> & { readonly barNow: () => number | null }) => (
  <FoldedForms barNow={barNow}>
    {(begin) => (
      <>
        <ForbidForm {...props} begin={begin} heading={words.forbid} />
        <SettingForm {...props} begin={begin} />
        <PositionForm {...props} begin={begin} />
        <TempoForm {...props} begin={begin} />
        <CueForm {...props} />
      </>
    )}
  </FoldedForms>
);

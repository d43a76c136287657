import { useState } from 'preact/hooks';
import {
  LETTERS,
  type Letter,
  nameOfPosition,
  type Place,
  POSITIONS,
  type PositionName,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { DecisionActions } from './decision-actions.ts';
import { ForbidForm, PlaceFields, START } from './place-fields.tsx';
import { endOfBar, quartersOfPlace } from './places.ts';

const words = STRINGS.decisions.forms;

interface FormProps {
  readonly part: PlannedPart;
  readonly actions: DecisionActions;
}

/** The beats of a bar at which a note or a beat falls. */
const momentsIn = ({ moments }: PlannedPart, bar: number): readonly string[] => [
  ...new Set(moments.filter((moment) => moment.barIndex === bar).map(({ beat }) => beat)),
];

const SettingForm = ({ part, actions }: FormProps) => {
  const [at, setAt] = useState(START);
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

const PositionForm = ({ part, actions }: FormProps) => {
  const [pedal, setPedal] = useState<Letter>('D');
  const [position, setPosition] = useState<PositionName>('natural');
  const [from, setFrom] = useState(START);
  const [until, setUntil] = useState<Place | null>(null);
  const inOrder = until === null || quartersOfPlace(part, from) < quartersOfPlace(part, until);
  return (
    <fieldset>
      <legend>{words.position}</legend>
      <span class="place-fields">
        <select
          aria-label={words.pedal}
          value={pedal}
          onChange={({ currentTarget }) => setPedal(currentTarget.value as Letter)}
        >
          {LETTERS.map((letter) => (
            <option key={letter}>{letter}</option>
          ))}
        </select>
        <select
          aria-label={words.stays}
          value={position}
          onChange={({ currentTarget }) => setPosition(currentTarget.value as PositionName)}
        >
          {POSITIONS.map((each) => (
            <option key={each} value={nameOfPosition(each)}>
              {STRINGS.position(each)}
            </option>
          ))}
        </select>
      </span>
      <PlaceFields part={part} label={words.from} place={from} onChange={setFrom} />
      <label class="check">
        <input
          type="checkbox"
          checked={until === null}
          onChange={({ currentTarget }) =>
            setUntil(currentTarget.checked ? null : endOfBar(part, from.barIndex))
          }
        />
        <span>{words.toTheEnd}</span>
      </label>
      {until !== null && <PlaceFields part={part} label={words.until} place={until} onChange={setUntil} />}
      {!inOrder && <p class="aside">{words.wrongOrder}</p>}
      <button
        type="button"
        class="small"
        disabled={!inOrder}
        onClick={() =>
          actions.decide({ kind: 'pin', pin: { kind: 'position', pedal, position, from, until } })
        }
      >
        {words.add}
      </button>
    </fieldset>
  );
};

/** Decisions that need no move or marking to begin with; the forms are made when they are opened. */
export const DecisionForms = (props: FormProps) => {
  const [open, setOpen] = useState(false);
  return (
    <details class="forms" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{words.heading}</summary>
      {open && (
        <>
          <ForbidForm {...props} heading={words.forbid} />
          <SettingForm {...props} />
          <PositionForm {...props} />
        </>
      )}
    </details>
  );
};

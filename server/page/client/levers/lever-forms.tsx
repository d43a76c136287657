import { useState } from 'preact/hooks';
import type { Place } from '../../../../engine/index.ts';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { STRINGS } from '../../strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { ForbidForm, PlaceFields, START } from '../decisions/place-fields.tsx';
import { endOfBar, quartersOfPlace } from '../decisions/places.ts';
import type { ReadPart } from '../planner/planned-part.ts';

const words = STRINGS.decisions.forms;
const own = LEVER_STRINGS.decisions;

interface LeverFormProps {
  readonly part: ReadPart;
  readonly report: LeverAnnotateReport;
  readonly actions: DecisionActions;
}

const POSITIONS = ['up', 'down'] as const;

const PositionForm = ({ part, report, actions }: LeverFormProps) => {
  const levers = report.strings.filter(({ lever }) => lever).map(({ string }) => string);
  const [lever, setLever] = useState(levers[0] ?? '');
  const [to, setTo] = useState<(typeof POSITIONS)[number]>('up');
  const [from, setFrom] = useState(START);
  const [until, setUntil] = useState<Place | null>(null);
  const inOrder = until === null || quartersOfPlace(part, from) < quartersOfPlace(part, until);
  return (
    <fieldset>
      <legend>{own.position}</legend>
      <span class="place-fields">
        <select
          aria-label={own.lever}
          value={lever}
          onChange={({ currentTarget }) => setLever(currentTarget.value)}
        >
          {levers.map((string) => (
            <option key={string}>{string}</option>
          ))}
        </select>
        <select
          aria-label={own.stays}
          value={to}
          onChange={({ currentTarget }) => setTo(currentTarget.value as typeof to)}
        >
          {POSITIONS.map((each) => (
            <option key={each} value={each}>
              {own[each]}
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
          actions.decide({ kind: 'pin', pin: { kind: 'lever-position', lever, to, from, until } })
        }
      >
        {words.add}
      </button>
    </fieldset>
  );
};

/** Decisions that need no change to begin with; the forms are made when they are opened. */
export const LeverForms = (props: LeverFormProps) => {
  const [open, setOpen] = useState(false);
  return (
    <details class="forms" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{words.heading}</summary>
      {open && (
        <>
          <ForbidForm part={props.part} actions={props.actions} heading={own.forbid} />
          <PositionForm {...props} />
        </>
      )}
    </details>
  );
};

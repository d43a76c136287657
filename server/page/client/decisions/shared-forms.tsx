import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { DECISION_LIMITS, type Place } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { DecisionActions } from './decision-actions.ts';
import { type Bars, PlaceFields, START } from './place-fields.tsx';
import { endOfBar, quartersOfPlace } from './places.ts';

const words = STRINGS.decisions.forms;

/** Chooses from where, and until where or to the end, what is chosen in `children` stays as it is. */
export const StayForm = ({
  part,
  heading,
  children,
  onAdd,
}: {
  readonly part: Bars;
  readonly heading: string;
  readonly children: ComponentChildren;
  readonly onAdd: (from: Place, until: Place | null) => void;
}) => {
  const [from, setFrom] = useState(START);
  const [until, setUntil] = useState<Place | null>(null);
  const inOrder = until === null || quartersOfPlace(part, from) < quartersOfPlace(part, until);
  return (
    <fieldset>
      <legend>{heading}</legend>
      <span class="place-fields">{children}</span>
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
      <button type="button" class="small" disabled={!inOrder} onClick={() => onAdd(from, until)}>
        {words.add}
      </button>
    </fieldset>
  );
};

/** Forms that are made when they are opened. */
export const FoldedForms = ({ children }: { readonly children: ComponentChildren }) => {
  const [open, setOpen] = useState(false);
  return (
    <details class="forms" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>{words.heading}</summary>
      {open && children}
    </details>
  );
};

/** Chooses a passage without moves. */
export const ForbidForm = ({
  part,
  actions,
  heading,
}: {
  readonly part: Bars;
  readonly actions: Pick<DecisionActions, 'decide'>;
  readonly heading: string;
}) => {
  const [from, setFrom] = useState(START);
  const [until, setUntil] = useState<Place>({ barIndex: Math.min(1, part.bars.length - 1), beat: '1' });
  const inOrder = quartersOfPlace(part, from) < quartersOfPlace(part, until);
  return (
    <fieldset>
      <legend>{heading}</legend>
      <PlaceFields part={part} label={words.from} place={from} onChange={setFrom} />
      <PlaceFields part={part} label={words.until} place={until} onChange={setUntil} />
      {!inOrder && <p class="aside">{words.wrongOrder}</p>}
      <button
        type="button"
        class="small"
        disabled={!inOrder}
        onClick={() => actions.decide({ kind: 'pin', pin: { kind: 'forbid', from, until } })}
      >
        {words.add}
      </button>
    </fieldset>
  );
};

/** What the field of a tempo shows before it is changed. */
const USUAL_TEMPO = 80;

/** Chooses how fast a passage may be played. */
export const TempoForm = ({
  part,
  actions,
}: {
  readonly part: Bars;
  readonly actions: Pick<DecisionActions, 'decide'>;
}) => {
  const [quartersPerMinute, setTempo] = useState(USUAL_TEMPO);
  const { slowest, fastest } = DECISION_LIMITS;
  return (
    <StayForm
      part={part}
      heading={words.tempo}
      onAdd={(from, until) => actions.decide({ kind: 'tempo', tempo: { from, until, quartersPerMinute } })}
    >
      <span aria-hidden="true">♩ =</span>
      <input
        type="number"
        aria-label={words.perMinute}
        min={slowest}
        max={fastest}
        value={quartersPerMinute}
        onChange={({ currentTarget }) =>
          setTempo(Math.min(fastest, Math.max(slowest, currentTarget.valueAsNumber || USUAL_TEMPO)))
        }
      />
    </StayForm>
  );
};

import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { DECISION_LIMITS, type Place } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { DecisionActions } from '../decision-actions.ts';
import { endOfBar, quartersOfPlace } from '../places.ts';
import { type Bars, PlaceFields } from './place-fields.tsx';

const words = STRINGS.decisions.forms;

/** From where until where; null for the end of the piece. */
interface Passage {
  readonly from: Place;
  readonly until: Place | null;
}

const isInOrder = (part: Bars, { from, until }: Passage): boolean =>
  until === null || quartersOfPlace(part, from) < quartersOfPlace(part, until);

/** Chooses a passage: an end that a later start leaves behind goes with it. */
const PassageFields = ({
  part,
  passage,
  onChange,
}: {
  readonly part: Bars;
  readonly passage: Passage;
  readonly onChange: (passage: Passage) => void;
}) => {
  const { from, until } = passage;
  const begin = (place: Place): void => {
    const moved = { from: place, until };
    onChange(isInOrder(part, moved) ? moved : { from: place, until: endOfBar(part, place.barIndex) });
  };
  return (
    <>
      <PlaceFields part={part} label={words.from} place={from} onChange={begin} />
      <label class="check">
        <input
          type="checkbox"
          checked={until === null}
          onChange={({ currentTarget }) =>
            onChange({ from, until: currentTarget.checked ? null : endOfBar(part, from.barIndex) })
          }
        />
        <span>{words.toTheEnd}</span>
      </label>
      {until !== null && (
        <PlaceFields
          part={part}
          label={words.until}
          place={until}
          onChange={(place) => onChange({ from, until: place })}
        />
      )}
      {!isInOrder(part, passage) && <p class="aside">{words.wrongOrder}</p>}
    </>
  );
};

/** Chooses from where, and until where or to the end, what is chosen in `children` stays as it is. */
export const StayForm = ({
  part,
  begin,
  heading,
  children,
  onAdd,
}: {
  readonly part: Bars;
  readonly begin: Place;
  readonly heading: string;
  readonly children: ComponentChildren;
  readonly onAdd: (from: Place, until: Place | null) => void;
}) => {
  const [passage, setPassage] = useState<Passage>({ from: begin, until: null });
  return (
    <fieldset>
      <legend>{heading}</legend>
      <span class="place-fields">{children}</span>
      <PassageFields part={part} passage={passage} onChange={setPassage} />
      <button
        type="button"
        class="small"
        disabled={!isInOrder(part, passage)}
        onClick={() => onAdd(passage.from, passage.until)}
      >
        {words.add}
      </button>
    </fieldset>
  );
};

/** Forms that are made when they are opened. */
export const FoldedForms = ({
  barNow,
  children,
}: {
  /** The bar that is looked at, as an index: the forms begin there. */
  readonly barNow: () => number | null;
  readonly children: (begin: Place) => ComponentChildren;
}) => {
  const [begin, setBegin] = useState<Place | null>(null);
  return (
    <details
      class="forms"
      onToggle={({ currentTarget }) =>
        setBegin(currentTarget.open ? { barIndex: barNow() ?? 0, beat: '1' } : null)
      }
    >
      <summary>{words.heading}</summary>
      {begin !== null && children(begin)}
    </details>
  );
};

/** Chooses a passage without moves. */
export const ForbidForm = ({
  part,
  begin,
  actions,
  heading,
}: {
  readonly part: Bars;
  readonly begin: Place;
  readonly actions: Pick<DecisionActions, 'decide'>;
  readonly heading: string;
}) => {
  const [passage, setPassage] = useState<Passage>({ from: begin, until: endOfBar(part, begin.barIndex) });
  const { from, until } = passage;
  return (
    <fieldset>
      <legend>{heading}</legend>
      <PassageFields part={part} passage={passage} onChange={setPassage} />
      <button
        type="button"
        class="small"
        disabled={!isInOrder(part, passage)}
        onClick={() =>
          actions.decide({
            kind: 'pin',
            pin: { kind: 'forbid', from, until: until ?? endOfBar(part, part.bars.length - 1) },
          })
        }
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
  begin,
  actions,
}: {
  readonly part: Bars;
  readonly begin: Place;
  readonly actions: Pick<DecisionActions, 'decide'>;
}) => {
  const [quartersPerMinute, setTempo] = useState(USUAL_TEMPO);
  const { slowest, fastest } = DECISION_LIMITS;
  return (
    <StayForm
      part={part}
      begin={begin}
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

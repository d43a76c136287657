import { useState } from 'preact/hooks';
import type { Place } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { DecisionActions } from './decision-actions.ts';
import { beatsIn, quartersOfPlace } from './places.ts';

const words = STRINGS.decisions.forms;

type Bars = Pick<PlannedPart, 'bars'>;

export const START: Place = { barIndex: 0, beat: '1' };

/** Chooses a bar by its printed number, and a beat in it. */
export const PlaceFields = ({
  part,
  label,
  place,
  beats = beatsIn(part.bars[place.barIndex]!),
  onChange,
}: {
  readonly part: Bars;
  readonly label: string;
  readonly place: Place;
  readonly beats?: readonly string[];
  readonly onChange: (place: Place) => void;
}) => (
  <span class="place-fields">
    <span aria-hidden="true">
      {label} {words.bar}
    </span>
    <select
      aria-label={words.barOf(label)}
      value={`${place.barIndex}`}
      onChange={({ currentTarget }) => onChange({ barIndex: Number(currentTarget.value), beat: '1' })}
    >
      {part.bars.map(({ number }, i) => (
        <option key={i} value={`${i}`}>
          {number || `(${i + 1})`}
        </option>
      ))}
    </select>
    <span aria-hidden="true">{words.beat}</span>
    <select
      aria-label={words.beatOf(label)}
      value={place.beat}
      onChange={({ currentTarget }) => onChange({ barIndex: place.barIndex, beat: currentTarget.value })}
    >
      {beats.map((beat) => (
        <option key={beat} value={beat}>
          {STRINGS.beat(beat)}
        </option>
      ))}
    </select>
  </span>
);

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

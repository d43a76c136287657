import type { Place } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { beatsIn } from '../places.ts';

const words = STRINGS.decisions.forms;

export type Bars = Pick<PlannedPart, 'bars'>;

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

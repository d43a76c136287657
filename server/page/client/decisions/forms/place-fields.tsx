import type { Place } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { SelectList } from '../../controls/select-list.tsx';
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
    <SelectList
      label={words.barOf(label)}
      value={place.barIndex}
      values={[...part.bars.keys()]}
      tell={(bar) => part.bars[bar]!.name || `(${bar + 1})`}
      onChange={(barIndex) => onChange({ barIndex, beat: '1' })}
    />
    <span aria-hidden="true">{words.beat}</span>
    <SelectList
      label={words.beatOf(label)}
      value={place.beat}
      values={beats}
      tell={STRINGS.beat}
      onChange={(beat) => onChange({ barIndex: place.barIndex, beat })}
    />
  </span>
);

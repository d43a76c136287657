import {
  formatChange,
  LETTERS,
  nameOfPosition,
  POSITIONS,
  type PositionName,
  positionNamed,
  type Setting,
} from '../../../../engine/index.ts';
import { SETTING_STRINGS } from '../../strings/setting-strings.ts';

export interface PedalFieldsProps {
  readonly setting: Setting;
  readonly onChange: (setting: Setting) => void;
}

/** A list for each pedal, in the order in which the pedals stand. */
export const PedalFields = ({ setting, onChange }: PedalFieldsProps) => (
  <fieldset class="pedal-fields">
    <legend>{SETTING_STRINGS.pedals}</legend>
    {LETTERS.map((letter) => (
      <select
        key={letter}
        name={letter}
        aria-label={SETTING_STRINGS.pedal(letter)}
        value={nameOfPosition(setting[letter])}
        onChange={({ currentTarget }) =>
          onChange({ ...setting, [letter]: positionNamed(currentTarget.value as PositionName) })
        }
      >
        {POSITIONS.map((position) => (
          <option key={position} value={nameOfPosition(position)}>
            {formatChange(letter, position)}
          </option>
        ))}
      </select>
    ))}
  </fieldset>
);

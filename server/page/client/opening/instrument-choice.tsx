import { HARP_NAMES, type HarpName } from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';

/** Which harp the part is planned for. */
export const InstrumentChoice = ({
  harp,
  onChoose,
}: {
  readonly harp: HarpName;
  readonly onChoose: (harp: HarpName) => void;
}) => (
  <label class="instrument">
    <span>{LEVER_STRINGS.harp.label}</span>{' '}
    <select
      name="instrument"
      value={harp}
      onChange={({ currentTarget }) => onChoose(currentTarget.value as HarpName)}
    >
      {HARP_NAMES.map((name) => (
        <option key={name} value={name}>
          {LEVER_STRINGS.harp.name(name)}
        </option>
      ))}
    </select>
  </label>
);

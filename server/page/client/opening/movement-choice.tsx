import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';

const words = STRINGS.movements;
const ALL = 'all';

/** Which movement is looked at and printed, where the file has several; or all, of which the first is looked at. */
export const MovementChoice = ({
  movements,
  chosen,
  onChoose,
}: {
  readonly movements: ReadPart['movements'];
  /** The number of a movement; undefined for all. */
  readonly chosen: string | undefined;
  readonly onChoose: (movement: string | undefined) => void;
}) => {
  if (movements === null) return null;
  return (
    <label class="instrument">
      <span>{words.label}</span>{' '}
      <select
        name="movement"
        value={chosen ?? ALL}
        title={words.printed}
        onChange={({ currentTarget: { value } }) => onChoose(value === ALL ? undefined : value)}
      >
        <option value={ALL}>{words.all}</option>
        {movements.map((title, i) => (
          <option key={i} value={`${i + 1}`}>
            {words.option(i + 1, title)}
          </option>
        ))}
      </select>
    </label>
  );
};

import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';

const words = STRINGS.movements;

/** Which movement is looked at, where the file has several. */
export const MovementChoice = ({
  movements,
  onChoose,
}: {
  readonly movements: ReadPart['movements'];
  /** The number of a movement; undefined for the first, which is read where none is named. */
  readonly onChoose: (movement: string | undefined) => void;
}) => {
  if (movements === null) return null;
  return (
    <label class="instrument">
      <span>{words.label}</span>{' '}
      <select
        name="movement"
        value={movements.read}
        title={words.printed}
        onChange={({ currentTarget: { selectedIndex } }) =>
          onChoose(selectedIndex === 0 ? undefined : `${selectedIndex + 1}`)
        }
      >
        {movements.titles.map((title, i) => (
          <option key={i} value={i}>
            {words.option(i + 1, title)}
          </option>
        ))}
      </select>
    </label>
  );
};

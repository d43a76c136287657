import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import { nameOfHarp } from './harp-names.ts';

const words = STRINGS.parts;

/** Which harp of the score is looked at, where it has several. */
export const HarpChoice = ({
  part: { harps, partIds },
  onChoose,
}: {
  readonly part: ReadPart;
  /** The id of a part; null for the one that is taken where none is named. */
  readonly onChoose: (part: string | null) => void;
}) => {
  const chosen = harps.findIndex(({ id }) => partIds.includes(id));
  if (harps.length < 2 || chosen === -1) return null;
  return (
    <label class="instrument">
      <span>{words.label}</span>{' '}
      <select
        name="part"
        value={chosen}
        onChange={({ currentTarget: { selectedIndex } }) =>
          onChoose(selectedIndex === 0 ? null : harps[selectedIndex]!.id)
        }
      >
        {harps.map((harp, i) => (
          <option key={harp.id} value={i}>
            {nameOfHarp(harps, harp)}
          </option>
        ))}
      </select>
    </label>
  );
};

import type { HarpLabel } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { ReadPart } from '../planner/planned-part.ts';

const words = STRINGS.parts;

/** Parts of the same name are counted, so that each has a name of its own. */
const nameOf = (harps: readonly HarpLabel[], harp: HarpLabel): string => {
  const namesakes = harps.filter(({ name }) => name === harp.name);
  const name = harp.name || words.unnamed;
  return namesakes.length === 1 ? name : words.numbered(name, namesakes.indexOf(harp) + 1);
};

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
            {nameOf(harps, harp)}
          </option>
        ))}
      </select>
    </label>
  );
};

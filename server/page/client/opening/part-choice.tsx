import type { PartSummary } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import { ChoiceList } from './choice-list.tsx';

const words = STRINGS.parts;

/** Lets the user say which part is the harp. */
export const PartChoice = ({
  parts,
  silentHarp,
  onChoose,
}: {
  readonly parts: readonly PartSummary[];
  readonly silentHarp: string | null;
  readonly onChoose: (id: string) => void;
}) => (
  <ChoiceList
    heading={words.heading}
    intro={silentHarp === null ? words.intro : words.silentHarp(silentHarp)}
    choices={parts.map(({ id, name, staves, notes }) => ({
      key: id,
      label: words.option(name || words.unnamed, staves, notes),
    }))}
    onChoose={onChoose}
  />
);

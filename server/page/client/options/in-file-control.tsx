import { STRINGS } from '../../strings/strings.ts';
import { type ControlProps, ListControl } from './choice-controls.tsx';
import { type Choices, chosenOf } from './choices.ts';

/** What becomes of the markings in the file: on the page one choice, in requests two options. */
const IN_FILE = {
  replaced: { followMarkings: 'false', fileMarkings: 'false' },
  beside: { followMarkings: 'false', fileMarkings: 'true' },
  pins: { followMarkings: 'true', fileMarkings: 'false' },
} as const satisfies Readonly<Record<keyof typeof STRINGS.choices.inFile.values, Choices>>;

type InFile = keyof typeof IN_FILE;

export const InFileControl = ({ choices, harp, onChoose }: ControlProps) => {
  const { label, values } = STRINGS.choices.inFile;
  const isChosen = (name: InFile): boolean =>
    Object.entries(IN_FILE[name]).every(([option, word]) => chosenOf(choices, option, harp) === word);
  const chosen = (Object.keys(IN_FILE) as InFile[]).find(isChosen) ?? 'pins';
  return (
    <ListControl
      name="inFile"
      label={label}
      chosen={chosen}
      values={values}
      onChoose={(value) => onChoose(IN_FILE[value as InFile])}
    />
  );
};

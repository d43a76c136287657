import type { Amount, AmountOrNever, HarpKind, ListedOption, Text } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { type Choices, chosenOf, isWord, OWN, valuesOf } from './choices.ts';
import { TypedChoice } from './typed-choice.tsx';

const words = STRINGS.choices;

export interface ControlProps {
  readonly listed: ListedOption;
  readonly choices: Choices;
  readonly harp: HarpKind;
  /** Words by the names of options; what is not named stays as it is. */
  readonly onChoose: (changed: Choices) => void;
}

const SwitchControl = ({ listed: { name, option }, choices, harp, onChoose }: ControlProps) => (
  <label class="check">
    <input
      type="checkbox"
      name={name}
      checked={chosenOf(choices, name, harp) === 'true'}
      onChange={({ currentTarget }) => onChoose({ [name]: `${currentTarget.checked}` })}
    />
    <span>{option.label}</span>
  </label>
);

const TextControl = ({ listed, choices, harp, onChoose }: ControlProps) => {
  const { name, option } = listed;
  const { expected, examples, longest } = option as Text;
  return (
    <TypedChoice
      name={name}
      label={option.label ?? name}
      chosen={chosenOf(choices, name, harp)}
      isGood={(typed) => isWord(listed, typed)}
      advice={words.textWrong(expected)}
      field={{ type: 'text', spellcheck: false, placeholder: examples[0], maxLength: longest }}
      onChoose={(typed) => onChoose({ [name]: typed })}
    />
  );
};

const AmountControl = ({ listed, choices, harp, onChoose }: ControlProps) => {
  const { name, option } = listed;
  const { least, most, step, unit } = option as Amount | AmountOrNever;
  return (
    <TypedChoice
      name={name}
      label={option.label ?? name}
      chosen={chosenOf(choices, name, harp)}
      isGood={(typed) => isWord(listed, typed)}
      advice={words.amountWrong(least, most, unit)}
      field={{ type: 'number', min: least, max: most, step: step ?? 'any' }}
      onChoose={(typed) => onChoose({ [name]: typed })}
    />
  );
};

interface ListProps {
  readonly name: string;
  readonly label: string | null;
  readonly chosen: string;
  /** Each with its words. */
  readonly values: Readonly<Record<string, string>>;
  readonly onChoose: (value: string) => void;
}

export const ListControl = ({ name, label, chosen, values, onChoose }: ListProps) => (
  <label>
    <span>{label}</span>
    <select name={name} value={chosen} onChange={({ currentTarget }) => onChoose(currentTarget.value)}>
      {Object.entries(values).map(([value, each]) => (
        <option key={value} value={value}>
          {each}
        </option>
      ))}
    </select>
  </label>
);

/** The control for an option, by what kind of option it is. */
export const Control = (props: ControlProps) => {
  const { listed, choices, harp, onChoose } = props;
  const { name, option, ownOf } = listed;
  // There is nothing to measure where something is chosen by name.
  if (ownOf !== null && chosenOf(choices, ownOf.name, harp) !== OWN) return null;
  const values = valuesOf(listed);
  if (values !== null) {
    return (
      <ListControl
        name={name}
        label={option.label}
        chosen={chosenOf(choices, name, harp)}
        values={values}
        onChoose={(value) => onChoose({ [name]: value })}
      />
    );
  }
  if (option.kind === 'switch') return <SwitchControl {...props} />;
  return option.kind === 'text' ? <TextControl {...props} /> : <AmountControl {...props} />;
};

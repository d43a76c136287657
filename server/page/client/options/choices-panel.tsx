import { FARTHEST_CENTS, parseScordatura } from '../../../../engine/harp/scordatura.ts';
import { PAPER_MM_LIMITS } from '../../../../render/engraving-options.ts';
import { STRINGS } from '../../strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import { type ChoiceName, type Choices, chosenOf, cleanChoices, kindOf, valuesOf } from './choices.ts';
import { LookPreview } from './look-preview.tsx';
import { TypedChoice } from './typed-choice.tsx';

const words = STRINGS.choices;

/** What is chosen together, in order. */
const GROUPS: Readonly<Record<keyof typeof words.groups, readonly ChoiceName[]>> = {
  markings: ['settingLook', 'naming', 'placement', 'density', 'ringChanged', 'numberImpossible'],
  settings: [
    'settings.start',
    'settings.rehearsalMarks',
    'settings.glissandi',
    'settings.threeChanges',
    'settings.systemStart',
    'settings.pageStart',
    'settings.afterRestBars',
  ],
  page: ['paper', 'paperWidth', 'paperHeight', 'staffMm', 'pageTurns', 'keepBreaks', 'condenseRests'],
  notes: ['stringColours', 'respelled'],
  feet: ['spelling', 'inFile', 'footRest', 'pedalsTogether', 'crossFeet'],
  strings: ['scordatura'],
};

interface ChoiceProps {
  readonly name: ChoiceName;
  readonly choices: Choices;
  readonly onChoose: (name: ChoiceName, value: string) => void;
}

const ListChoice = ({ name, choices, onChoose }: ChoiceProps) => (
  <label>
    <span>{words.names[name]}</span>
    <select
      name={name}
      value={chosenOf(choices, name)}
      onChange={({ currentTarget }) => onChoose(name, currentTarget.value)}
    >
      {Object.entries(valuesOf(name)).map(([value, label]) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  </label>
);

const SwitchChoice = ({ name, choices, onChoose }: ChoiceProps) => (
  <label class="check">
    <input
      type="checkbox"
      name={name}
      checked={chosenOf(choices, name) === 'true'}
      onChange={({ currentTarget }) => onChoose(name, `${currentTarget.checked}`)}
    />
    <span>{words.names[name]}</span>
  </label>
);

/** Lengths are of paper of one's own size: there is nothing to choose where a named paper is. */
const LengthChoice = ({ name, choices, onChoose }: ChoiceProps) => {
  const { least, most } = PAPER_MM_LIMITS;
  if (chosenOf(choices, 'paper') !== 'own') return null;
  return (
    <TypedChoice
      name={name}
      label={words.names[name]}
      chosen={chosenOf(choices, name)}
      isGood={(typed) => typed !== '' && Number(typed) >= least && Number(typed) <= most}
      advice={words.lengths(least, most)}
      field={{ type: 'number', min: least, max: most, step: '0.1' }}
      onChoose={(typed) => onChoose(name, typed)}
    />
  );
};

/** Strings with cents. */
const StringsChoice = ({ name, choices, onChoose }: ChoiceProps) => (
  <TypedChoice
    name={name}
    label={words.names[name]}
    chosen={chosenOf(choices, name)}
    isGood={(typed) => parseScordatura(typed).ok}
    advice={words.stringsWrong(FARTHEST_CENTS)}
    field={{ type: 'text', spellcheck: false, placeholder: words.stringsExample }}
    onChoose={(typed) => onChoose(name, typed)}
  />
);

const CONTROLS = { list: ListChoice, switch: SwitchChoice, length: LengthChoice, strings: StringsChoice };

/** How the pages look and how the feet are planned; remembered. */
export const ChoicesPanel = ({
  choices,
  onChange,
}: {
  readonly choices: Choices;
  readonly onChange: (choices: Choices) => void;
}) => {
  const choose = (name: ChoiceName, value: string): void =>
    onChange(cleanChoices({ ...choices, [name]: value }));
  return (
    <section class="choices">
      <h2>{words.heading}</h2>
      <LookPreview choices={choices} />
      {(Object.keys(GROUPS) as (keyof typeof GROUPS)[]).map((group, i) => (
        <details key={group} open={i === 0}>
          <summary>{words.groups[group]}</summary>
          {GROUPS[group].map((name) => {
            const Control = CONTROLS[kindOf(name)];
            return <Control key={name} name={name} choices={choices} onChoose={choose} />;
          })}
        </details>
      ))}
      <StepButton atEnd={Object.keys(choices).length === 0} onClick={() => onChange({})}>
        {words.reset}
      </StepButton>
    </section>
  );
};

import { STRINGS } from '../strings.ts';
import { CHOICE_NAMES, type Choices, cleanChoices, DEFAULTS, valuesOf } from './choices.ts';

/** How the pages look; remembered. */
export const ChoicesPanel = ({
  choices,
  onChange,
}: {
  readonly choices: Choices;
  readonly onChange: (choices: Choices) => void;
}) => (
  <section class="choices">
    <h2>{STRINGS.choices.heading}</h2>
    {CHOICE_NAMES.map((name) => (
      <label key={name}>
        <span>{STRINGS.choices.names[name]}</span>
        <select
          name={name}
          value={choices[name] ?? DEFAULTS[name]}
          onChange={({ currentTarget }) =>
            onChange(cleanChoices({ ...choices, [name]: currentTarget.value }))
          }
        >
          {Object.entries(valuesOf(name)).map(([value, label]) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      </label>
    ))}
    <button type="button" disabled={Object.keys(choices).length === 0} onClick={() => onChange({})}>
      {STRINGS.choices.reset}
    </button>
  </section>
);

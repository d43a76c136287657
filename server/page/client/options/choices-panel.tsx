import type { ComponentChildren } from 'preact';
import type { HarpKind, OptionGroup } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';
import { Control, type ControlProps } from './choice-controls.tsx';
import { type Choices, cleanChoices } from './choices.ts';
import { InFileControl } from './in-file-control.tsx';
import { BESIDE_DOWNLOADS, groupsFor } from './offered-options.ts';
import { pieceOptionsFor } from './piece-choices.ts';

const words = STRINGS.choices;

/** For the pedal harp two options are one choice. */
const ControlFor = (props: ControlProps) => {
  const { harp, listed } = props;
  if (harp === 'pedal' && listed.name === 'fileMarkings') return null;
  return listed.name === 'followMarkings' ? <InFileControl {...props} /> : <Control {...props} />;
};

/** What is changed most often is seen at once. */
const FIRST_OPEN: OptionGroup = 'markings';

export interface ChoicesPanelProps {
  readonly harp: HarpKind;
  readonly choices: Choices;
  /** A line in the chosen look, where one is shown. */
  readonly preview?: ComponentChildren;
  readonly onChange: (choices: Choices) => void;
}

/** How the pages look and how the part is planned, as the catalogue of options has it. */
export const ChoicesPanel = ({ harp, choices, preview, onChange }: ChoicesPanelProps) => {
  const choose = (changed: Choices): void => onChange(cleanChoices({ ...choices, ...changed }, harp));
  return (
    <section class="choices">
      <h2>{words.heading}</h2>
      <p class="aside">{words.kept(pieceOptionsFor(harp).map(({ option }) => option.label ?? ''))}</p>
      {preview}
      {groupsFor(harp)
        .filter(({ group }) => group !== BESIDE_DOWNLOADS)
        .map(({ group, heading, options }) => (
          <details key={group} open={group === FIRST_OPEN}>
            <summary>{heading}</summary>
            {options.map((listed) => (
              <ControlFor key={listed.name} listed={listed} choices={choices} harp={harp} onChoose={choose} />
            ))}
          </details>
        ))}
      <StepButton atEnd={Object.keys(choices).length === 0} onClick={() => onChange({})}>
        {words.reset}
      </StepButton>
    </section>
  );
};

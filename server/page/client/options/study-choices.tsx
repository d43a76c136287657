import { Control, type ControlProps } from './choice-controls.tsx';
import { cleanChoices } from './choices.ts';
import { studyOptionsFor } from './offered-options.ts';

/** What is chosen for study sheets and exercises, beside the buttons that make them. */
export const StudyChoices = ({ harp, choices, onChoose }: Omit<ControlProps, 'listed'>) => (
  <div class="study-choices">
    {studyOptionsFor(harp).map((listed) => (
      <Control
        key={listed.name}
        listed={listed}
        choices={choices}
        harp={harp}
        onChoose={(changed) => onChoose(cleanChoices({ ...choices, ...changed }, harp))}
      />
    ))}
  </div>
);

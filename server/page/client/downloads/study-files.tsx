import { type HarpKind, OPTION_GROUPS } from '../../../../engine/index.ts';
import type { Choices } from '../options/choices.ts';
import { StudyChoices } from '../options/study-choices.tsx';
import type { Order } from '../service/annotate-request.ts';
import { SaveButtons } from './file-buttons.tsx';
import { useNaming } from './naming.ts';
import { studyFiles } from './part-files.ts';

interface StudyFilesProps {
  readonly harp: HarpKind;
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
}

/** The sheets for teacher and pupil, and above them all that is chosen for them. */
export const StudyFiles = ({ harp, order, onChoose }: StudyFilesProps) => (
  <div class="study-files">
    <h3>{OPTION_GROUPS.study}</h3>
    <StudyChoices harp={harp} choices={order.choices} onChoose={onChoose} />
    <SaveButtons files={studyFiles({ order, naming: useNaming() })} />
  </div>
);

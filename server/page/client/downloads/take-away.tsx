import { STRINGS } from '../../strings/strings.ts';
import type { Choices } from '../options/choices.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { DrawnPages } from '../score/drawn/drawn-pages.ts';
import { type ScreenLayout, useChosenLayout } from '../score/screen-layout.ts';
import { fetchFile, type Order } from '../service/annotate-request.ts';
import { FileButtons, type TakenFile } from './file-buttons.tsx';
import { tabulateMoves } from './moves-table.ts';
import { type Naming, useNaming } from './naming.ts';
import { partFiles } from './part-files.ts';
import { PrintMoves } from './print-moves.tsx';
import { StudyFiles } from './study-files.tsx';
import { saveAnswer, ZIP } from './taken-files.ts';

const words = STRINGS.take;
const { names } = words;

interface TakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
}

const filesOf = (
  { order, part, drawn }: TakeAwayProps,
  layout: ScreenLayout,
  naming: Naming,
): readonly TakenFile[] => {
  const saveHarps = async (signal: AbortSignal) =>
    saveAnswer(await fetchFile({ ...order, allHarps: true }, ZIP, signal), naming.ofPiece(names.allHarps));
  const saveForTwo = async (signal: AbortSignal) =>
    saveAnswer(await fetchFile({ ...order, forTwo: 'balanced' }, ZIP, signal), naming.ofPart(names.forTwo));
  const table = { what: words.csv, tabulate: () => tabulateMoves(part) };
  return [
    ...partFiles({ order, drawn, layout, naming, table }),
    { what: words.forTwo, ready: true, save: saveForTwo },
    ...(part.harps.length > 1 ? [{ what: words.allHarps, ready: true, save: saveHarps }] : []),
  ];
};

/** Files to take away. */
export const TakeAway = (props: TakeAwayProps) => (
  <FileButtons
    files={filesOf(props, useChosenLayout(), useNaming())}
    below={<StudyFiles harp="pedal" {...props} />}
  >
    <PrintMoves part={props.part} fileName={props.order.file.name} />
  </FileButtons>
);

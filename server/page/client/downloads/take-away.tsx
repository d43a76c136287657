import { STRINGS } from '../../strings/strings.ts';
import type { Choices } from '../options/choices.ts';
import { StudyChoices } from '../options/study-choices.tsx';
import type { PlannedPart } from '../planner/planned-part.ts';
import { areAllDrawn, type DrawnPages } from '../score/drawn/drawn-pages.ts';
import { type ScreenLayout, useChosenLayout } from '../score/screen-layout.ts';
import { fetchFile, fetchPages, type Order } from '../service/annotate-request.ts';
import { cardFiles } from './card-files.ts';
import { FileButtons, type TakenFile } from './file-buttons.tsx';
import { tabulateMoves } from './moves-table.ts';
import { PrintMoves } from './print-moves.tsx';
import {
  ANY_SOURCE,
  PDF,
  saveAnswer,
  saveFetchedPages,
  savePages,
  saveTable,
  withLetters,
  ZIP,
} from './taken-files.ts';

const words = STRINGS.take;

interface TakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
}

const filesOf = ({ order, part, drawn }: TakeAwayProps, { isLarge }: ScreenLayout): readonly TakenFile[] => {
  const title = part.titles.title || part.partName;
  const fetched = async (accept: string) => saveAnswer(await fetchFile(order, accept), title);
  const saveStudy = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'study' }, PDF), words.studyName(title));
  const saveExercise = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'exercise' }, PDF), words.exerciseName(title));
  const saveHarps = async () =>
    saveAnswer(await fetchFile({ ...order, allHarps: true }, ZIP), words.allHarpsName(title));
  const saveForTwo = async () =>
    saveAnswer(await fetchFile({ ...order, forTwo: 'balanced' }, ZIP), words.forTwoName(title));
  const savePagesOf = async (): Promise<string | null> => {
    if (isLarge) return saveFetchedPages(await fetchPages(order), title);
    if (drawn.kind === 'drawn') await savePages(withLetters(drawn.pages, drawn.letters), title);
    return null;
  };
  const saveMoves = async (): Promise<null> => {
    saveTable(tabulateMoves(part), title);
    return null;
  };
  return [
    { what: words.pdf, ready: true, save: () => fetched(PDF) },
    { what: words.study, ready: true, save: saveStudy },
    { what: words.exercise, ready: true, save: saveExercise },
    ...cardFiles((accept) => fetchFile({ ...order, edition: 'card' }, accept), title),
    // Pages of an earlier plan are not given away as those of this one.
    { what: words.svg, ready: areAllDrawn(drawn), save: savePagesOf },
    { what: words.csv, ready: true, save: saveMoves },
    { what: words.source, ready: true, save: () => fetched(ANY_SOURCE) },
    { what: words.forTwo, ready: true, save: saveForTwo },
    ...(part.harps.length > 1 ? [{ what: words.allHarps, ready: true, save: saveHarps }] : []),
  ];
};

/** Files to take away. */
export const TakeAway = (props: TakeAwayProps) => (
  <FileButtons files={filesOf(props, useChosenLayout())}>
    <PrintMoves part={props.part} fileName={props.order.file.name} />
    <StudyChoices harp="pedal" choices={props.order.choices} onChoose={props.onChoose} />
  </FileButtons>
);

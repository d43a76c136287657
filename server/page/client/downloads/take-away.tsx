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
import { type NameDownload, type Naming, useNaming } from './naming.ts';
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
const { names } = words;

interface TakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
}

const filesOf = (
  { order, part, drawn }: TakeAwayProps,
  { isLarge }: ScreenLayout,
  naming: Naming,
): readonly TakenFile[] => {
  const fetched = async (accept: string, name: NameDownload) =>
    saveAnswer(await fetchFile(order, accept), name);
  const saveStudy = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'study' }, PDF), naming.ofPart(names.study));
  const saveExercise = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'exercise' }, PDF), naming.ofPart(names.exercise));
  const saveHarps = async () =>
    saveAnswer(await fetchFile({ ...order, allHarps: true }, ZIP), naming.ofPiece(names.allHarps));
  const saveForTwo = async () =>
    saveAnswer(await fetchFile({ ...order, forTwo: 'balanced' }, ZIP), naming.ofPart(names.forTwo));
  const savePagesOf = async (): Promise<string | null> => {
    if (isLarge) return saveFetchedPages(await fetchPages(order), naming.ofPart(names.pages));
    if (drawn.kind === 'drawn')
      await savePages(withLetters(drawn.pages, drawn.letters), naming.ofPart(names.pages));
    return null;
  };
  const saveMoves = async (): Promise<null> => {
    saveTable(tabulateMoves(part), naming.ofPart(names.moves));
    return null;
  };
  return [
    { what: words.pdf, ready: true, save: () => fetched(PDF, naming.ofPart()) },
    { what: words.study, ready: true, save: saveStudy },
    { what: words.exercise, ready: true, save: saveExercise },
    ...cardFiles((accept) => fetchFile({ ...order, edition: 'card' }, accept), naming.ofPart(names.card)),
    // Pages of an earlier plan are not given away as those of this one.
    { what: words.svg, ready: areAllDrawn(drawn), save: savePagesOf },
    { what: words.csv, ready: true, save: saveMoves },
    { what: words.source, ready: true, save: () => fetched(ANY_SOURCE, naming.ofPart(names.source)) },
    { what: words.forTwo, ready: true, save: saveForTwo },
    ...(part.harps.length > 1 ? [{ what: words.allHarps, ready: true, save: saveHarps }] : []),
  ];
};

/** Files to take away. */
export const TakeAway = (props: TakeAwayProps) => (
  <FileButtons files={filesOf(props, useChosenLayout(), useNaming())}>
    <PrintMoves part={props.part} fileName={props.order.file.name} />
    <StudyChoices harp="pedal" choices={props.order.choices} onChoose={props.onChoose} />
  </FileButtons>
);

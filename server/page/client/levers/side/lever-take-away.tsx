import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { cardFiles } from '../../downloads/card-files.ts';
import { FileButtons, type TakenFile } from '../../downloads/file-buttons.tsx';
import { type NameDownload, type Naming, useNaming } from '../../downloads/naming.ts';
import {
  ANY_SOURCE,
  PDF,
  saveAnswer,
  saveFetchedPages,
  savePages,
  saveTable,
  withLetters,
} from '../../downloads/taken-files.ts';
import type { Choices } from '../../options/choices.ts';
import { StudyChoices } from '../../options/study-choices.tsx';
import type { ReadPart } from '../../planner/planned-part.ts';
import { areAllDrawn, type DrawnPages } from '../../score/drawn/drawn-pages.ts';
import { type ScreenLayout, useChosenLayout } from '../../score/screen-layout.ts';
import { fetchFile, fetchPages, type Order } from '../../service/annotate-request.ts';
import { tabulateLeverMoves } from './lever-moves-table.ts';

interface LeverTakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly drawn: DrawnPages<unknown>;
}

const filesOf = (
  { order, part, report, drawn }: LeverTakeAwayProps,
  { isLarge }: ScreenLayout,
  naming: Naming,
): readonly TakenFile[] => {
  const words = STRINGS.take;
  const { names } = words;
  const fetched = async (accept: string, name: NameDownload) =>
    saveAnswer(await fetchFile(order, accept), name);
  const saveStudy = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'study' }, PDF), naming.ofPart(names.study));
  const saveExercise = async () =>
    saveAnswer(await fetchFile({ ...order, edition: 'exercise' }, PDF), naming.ofPart(names.exercise));
  const savePagesOf = async (): Promise<string | null> => {
    if (isLarge) return saveFetchedPages(await fetchPages(order), naming.ofPart(names.pages));
    if (drawn.kind === 'drawn')
      await savePages(withLetters(drawn.pages, drawn.letters), naming.ofPart(names.pages));
    return null;
  };
  const saveMoves = async (): Promise<null> => {
    saveTable(tabulateLeverMoves(report.moves, part), naming.ofPart(names.moves));
    return null;
  };
  return [
    { what: words.pdf, ready: true, save: () => fetched(PDF, naming.ofPart()) },
    { what: words.study, ready: true, save: saveStudy },
    { what: words.exercise, ready: true, save: saveExercise },
    ...cardFiles((accept) => fetchFile({ ...order, edition: 'card' }, accept), naming.ofPart(names.card)),
    // Pages of an earlier plan are not given away as those of this one.
    { what: words.svg, ready: areAllDrawn(drawn), save: savePagesOf },
    { what: LEVER_STRINGS.take.csv, ready: true, save: saveMoves },
    { what: words.source, ready: true, save: () => fetched(ANY_SOURCE, naming.ofPart(names.source)) },
  ];
};

/** Files of a part for the lever harp to take away. */
export const LeverTakeAway = (props: LeverTakeAwayProps) => (
  <FileButtons files={filesOf(props, useChosenLayout(), useNaming())}>
    <StudyChoices harp="lever" choices={props.order.choices} onChoose={props.onChoose} />
  </FileButtons>
);

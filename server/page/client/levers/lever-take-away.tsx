import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { cardFiles } from '../downloads/card-files.ts';
import { FileButtons, type TakenFile } from '../downloads/file-buttons.tsx';
import {
  ANY_SOURCE,
  PDF,
  saveAnswer,
  saveFetchedPages,
  savePages,
  saveTable,
} from '../downloads/taken-files.ts';
import type { Choices } from '../options/choices.ts';
import { StudyChoices } from '../options/study-choices.tsx';
import type { ReadPart } from '../planner/planned-part.ts';
import { type ScreenLayout, useChosenLayout } from '../score/screen-layout.ts';
import type { Order } from '../service/annotate-request.ts';
import { tabulateLeverMoves } from './lever-moves-table.ts';
import { fetchLeverFile, fetchLevers } from './lever-request.ts';

interface LeverTakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: ReadPart;
  readonly report: LeverAnnotateReport;
  /** The report is of earlier choices or decisions: it is not given away as that of these. */
  readonly stale: boolean;
}

const filesOf = (
  { order, part, report, stale }: LeverTakeAwayProps,
  { isLarge }: ScreenLayout,
): readonly TakenFile[] => {
  const words = STRINGS.take;
  const title = report.title || part.partName;
  const fetched = async (accept: string) => saveAnswer(await fetchLeverFile(order, accept), title);
  const saveStudy = async () =>
    saveAnswer(await fetchLeverFile({ ...order, edition: 'study' }, PDF), words.studyName(title));
  const saveExercise = async () =>
    saveAnswer(await fetchLeverFile({ ...order, edition: 'exercise' }, PDF), words.exerciseName(title));
  const savePagesOf = async (): Promise<string | null> => {
    if (isLarge) {
      const answer = await fetchLevers(order, null);
      return saveFetchedPages(answer.ok ? { ok: true, value: answer.value.pages } : answer, title);
    }
    await savePages(report.pages, title);
    return null;
  };
  const saveMoves = async (): Promise<null> => {
    saveTable(tabulateLeverMoves(report.moves, part), title);
    return null;
  };
  return [
    { what: words.pdf, ready: true, save: () => fetched(PDF) },
    { what: words.study, ready: true, save: saveStudy },
    { what: words.exercise, ready: true, save: saveExercise },
    ...cardFiles((accept) => fetchLeverFile({ ...order, edition: 'card' }, accept), title),
    { what: words.svg, ready: !stale, save: savePagesOf },
    { what: LEVER_STRINGS.take.csv, ready: !stale, save: saveMoves },
    { what: words.source, ready: true, save: () => fetched(ANY_SOURCE) },
  ];
};

/** Files of a part for the lever harp to take away. */
export const LeverTakeAway = (props: LeverTakeAwayProps) => (
  <FileButtons files={filesOf(props, useChosenLayout())}>
    <StudyChoices harp="lever" choices={props.order.choices} onChoose={props.onChoose} />
  </FileButtons>
);

import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { FileButtons } from '../../downloads/file-buttons.tsx';
import { useNaming } from '../../downloads/naming.ts';
import { partFiles } from '../../downloads/part-files.ts';
import { StudyFiles } from '../../downloads/study-files.tsx';
import type { Choices } from '../../options/choices.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import type { DrawnPages } from '../../score/drawn/drawn-pages.ts';
import { useChosenLayout } from '../../score/screen-layout.ts';
import type { Order } from '../../service/annotate-request.ts';
import { tabulateLeverMoves } from './lever-moves-table.ts';

interface LeverTakeAwayProps {
  readonly order: Order;
  readonly onChoose: (choices: Choices) => void;
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly drawn: DrawnPages<unknown>;
}

/** Files of a part for the lever harp to take away. */
export const LeverTakeAway = ({ order, onChoose, part, report, drawn }: LeverTakeAwayProps) => {
  const [layout, naming] = [useChosenLayout(), useNaming()];
  const table = {
    what: LEVER_STRINGS.take.csv,
    tabulate: () => tabulateLeverMoves(report.moves, part),
  };
  return (
    <FileButtons
      files={partFiles({ order, drawn, layout, naming, table })}
      below={<StudyFiles harp="lever" order={order} onChoose={onChoose} />}
    />
  );
};

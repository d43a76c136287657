import { useMemo } from 'preact/hooks';
import {
  isPosition,
  type LeverCourse,
  type OpenTuning,
  parsePitch,
  performLevers,
  readString,
} from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import { type HarpPicture, type ListenControls, ListenPanel } from '../../playback/listen-panel.tsx';
import { quartersOf } from '../lever-moves.ts';
import { LeverBoard, LeverLine } from './lever-board.tsx';
import { keyOfBoard, leverBoardAt } from './lever-board-state.ts';

/** How the strings are tuned, each by itself. */
const tuningOf = (strings: LeverPlanReport['strings']): OpenTuning => ({
  letters: { D: 0, C: 0, B: 0, E: 0, F: 0, G: 0, A: 0 },
  exceptions: strings.flatMap(({ open }) => {
    const pitch = parsePitch(open);
    return pitch !== null && isPosition(pitch.alter) ? [{ string: pitch, alter: pitch.alter }] : [];
  }),
});

const courseOf = (report: LeverPlanReport): LeverCourse => ({
  tuning: tuningOf(report.strings),
  initial: report.levers.flatMap((name) => parsePitch(name) ?? []),
  moves: report.moves.map((move) => ({
    string: readString(move.string)!,
    to: move.to,
    hand: move.hand,
    bar: move.barIndex,
    quarters: quartersOf(move.at),
    graceNote: move.graceNote,
    onlyAt: move.onlyAt,
  })),
});

export interface LeverListenProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  /** Ids of notes that the player leaves out. */
  readonly omitted: ReadonlySet<string>;
  readonly leverSeconds: number;
}

/** The open player of a part for the lever harp. */
export const LeverListen = ({
  part,
  report,
  omitted,
  leverSeconds,
  ...controls
}: LeverListenProps & ListenControls) => {
  const performance = useMemo(
    () => performLevers(part.hearing, courseOf(report), omitted),
    [part, report, omitted],
  );
  const pictureAt = useMemo(
    () =>
      (seconds: number, tempo: number): HarpPicture => {
        const state = leverBoardAt(performance, seconds, { tempo, leverSeconds });
        return {
          key: keyOfBoard(state),
          picture: (
            <>
              <LeverBoard strings={report.strings} state={state} />
              <LeverLine state={state} />
            </>
          ),
          spoken: STRINGS.spoken(LEVER_STRINGS.listen.board([...state.up])),
        };
      },
    [performance, leverSeconds],
  );
  return (
    <ListenPanel
      {...controls}
      part={part}
      performance={performance}
      pictureAt={pictureAt}
      say={LEVER_STRINGS.listen.say}
      actions={LEVER_STRINGS.listen.heard}
    />
  );
};

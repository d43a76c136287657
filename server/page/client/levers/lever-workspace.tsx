import type { ComponentChildren } from 'preact';
import { useMemo, useRef, useState } from 'preact/hooks';
import { listVerdict, namePiece } from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { createDecisionActions, type TryOut } from '../decisions/decision-actions.ts';
import { newTroubles, toldOfLevers } from '../decisions/troubles.ts';
import { useChoices } from '../memory/choosing.ts';
import { useKeeping } from '../memory/keeping.ts';
import { recallHistory } from '../memory/session-history.ts';
import { leverChoicesOf } from '../options/choices.ts';
import { WorkFrame } from '../piece/work-frame.tsx';
import type { EngineClient } from '../planner/engine-client.ts';
import type { OpenedLevers } from '../planner/engine-messages.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import { useReplannedLevers } from '../planner/replanned-part.ts';
import { useAskedProof } from '../proof/asked-proof.ts';
import { usePagesOnScreen } from '../score/drawn/pages-on-screen.ts';
import { describePages } from '../score/pages-section.tsx';
import { useScoreView } from '../score/score-view.ts';
import type { Order, ScoreFile } from '../service/annotate-request.ts';
import { indexLeverPages } from './lever-markings.ts';
import { LeverViews } from './lever-views.tsx';

/** What the header says of the plan. */
const headingOf = (file: ScoreFile, titles: ReadPart['titles'], report: LeverPlanReport) => {
  const { summary, tuning, levers } = report;
  const told = LEVER_STRINGS.summary;
  const figures = [
    told.changes(summary.changes),
    ...(summary.provenOptimal ? [] : [STRINGS.summary.unproved]),
    ...(summary.allTuningsTried ? [] : [told.tuningsUntried]),
  ];
  return {
    title: namePiece(titles) || file.name,
    about: [report.composer, report.instrument],
    verdict: listVerdict(summary.difficulty.failing, summary.difficulty.measures, 'lever'),
    figures: figures.join(', '),
    start: `${told.tuning(tuning)}, ${told.levers(levers)}`,
    difficulty: {
      ...summary.difficulty,
      passages: summary.difficulty.passages.map((passage) => ({
        ...passage,
        from: passage.fromName,
        until: passage.untilName,
      })),
    },
  };
};

export interface LeverWorkspaceProps {
  readonly file: ScoreFile;
  readonly opened: OpenedLevers;
  readonly planning: Pick<EngineClient, 'replanLevers' | 'planOtherLevers' | 'tryLevers'>;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

/** The open part with the user's decisions and choices, and its pages. */
const useWork = ({ file, opened, planning }: Pick<LeverWorkspaceProps, 'file' | 'opened' | 'planning'>) => {
  const { part } = opened;
  const view = useScoreView(file, part.bars.length);
  const [choices, setChoices] = useChoices('lever', file, view);
  const [before] = useState(() => recallHistory(file));
  const replanned = useReplannedLevers(opened, before, leverChoicesOf(choices), {
    replanLevers: planning.replanLevers,
    openedWith: useRef(leverChoicesOf(choices)).current,
  });
  const { history, act } = replanned;
  const { report, inForce } = replanned.planning;
  const kept = useKeeping(file, history);
  const actions = useMemo(() => {
    const tryOut: TryOut = (wanted, onTold) =>
      planning.tryLevers(wanted, leverChoicesOf(choices), ({ findings }) =>
        onTold(
          newTroubles(toldOfLevers(report.findings), toldOfLevers(findings)).map(({ sentence }) => sentence),
        ),
      );
    return createDecisionActions(part, history.present, act, tryOut);
  }, [part, history.present, choices, report]);
  // The pages follow the plan: they are asked for with the decisions that it was made with.
  const order = useMemo(
    (): Order => ({ file, harp: 'lever', choices, decisions: inForce }),
    [file, choices, inForce],
  );
  const pages = usePagesOnScreen(order, view, part.bars, report, indexLeverPages);
  return { ...replanned, ...pages, view, before, setChoices, kept, actions, order };
};

/** Everything about one open score for the lever harp. */
export const LeverWorkspace = ({ file, opened, planning, picker, dropping }: LeverWorkspaceProps) => {
  const work = useWork({ file, opened, planning });
  const { actions, drawn } = work;
  const { report, lost } = work.planning;
  const proof = useAskedProof(file, opened.part);
  return (
    <WorkFrame
      {...{ work, opened, file, picker, dropping, proof }}
      choices={work.order.choices}
      heading={headingOf(file, opened.part.titles, report)}
      progress={work.isPlanning ? LEVER_STRINGS.progress : describePages(drawn)}
      isForLevers
    >
      <LeverViews
        order={work.order}
        harp={opened.harp}
        part={opened.part}
        lost={lost}
        proof={proof}
        report={report}
        slowedHearing={work.planning.slowedHearing}
        actions={actions}
        drawn={drawn}
        view={work.view}
        isPlanning={work.isPlanning}
        planOther={planning.planOtherLevers}
        onRedraw={work.redraw}
        onChoose={work.setChoices}
      />
    </WorkFrame>
  );
};

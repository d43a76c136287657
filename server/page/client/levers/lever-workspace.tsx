import type { ComponentChildren } from 'preact';
import { useMemo, useReducer, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { BETWEEN } from '../../strings/shared-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { createDecisionActions } from '../decisions/decision-actions.ts';
import { applyAct, takeUpHistory } from '../decisions/decision-history.ts';
import { HistoryBar } from '../decisions/history-bar.tsx';
import { RestoredLine } from '../decisions/restored-line.tsx';
import { DifficultyDetails } from '../difficulty-details.tsx';
import { useKeeping } from '../memory/keeping.ts';
import { recallHistory } from '../memory/session-history.ts';
import type { Choices } from '../options/choices.ts';
import type { OpenedLevers } from '../planner/engine-messages.ts';
import { PageTrouble } from '../score/page-trouble.tsx';
import { ScreenLayoutProvider, useOrderOnScreen } from '../score/screen-layout.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import { LeverViews } from './lever-views.tsx';
import { type Levers, useLevers } from './planned-levers.ts';

const progressOf = ({ report, state }: Levers): string => {
  if (state === 'asking') return LEVER_STRINGS.progress;
  return state === 'ready' && report !== null ? STRINGS.progress.drawn(report.pages.length) : '';
};

const Heading = ({ file, report }: { readonly file: ScoreFile; readonly report: LeverAnnotateReport }) => {
  const { summary, tuning, levers } = report;
  const { unproved } = STRINGS.summary;
  const told = LEVER_STRINGS.summary;
  return (
    <div class="piece">
      <h1 tabIndex={-1}>{report.title || file.name}</h1>
      <p>
        {[report.composer, report.instrument].filter((each) => each !== '').join(BETWEEN)}
        {BETWEEN}
        <strong class={summary.playable ? '' : 'stop'}>{summary.difficulty.verdict}</strong>
        {BETWEEN}
        {told.changes(summary.changes)}
        {!summary.provenOptimal && `, ${unproved}`}
        {!summary.allTuningsTried && `, ${told.tuningsUntried}`}
        {BETWEEN}
        {told.tuning(tuning)}
        {', '}
        {told.levers(levers)}
      </p>
      <DifficultyDetails {...summary.difficulty} />
    </div>
  );
};

export interface LeverWorkspaceProps {
  readonly file: ScoreFile;
  readonly opened: OpenedLevers;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

/** The user's decisions with what led to them; those of this session go on where they were. */
const useHistory = (file: ScoreFile, { decisions }: OpenedLevers) => {
  const [before] = useState(() => recallHistory(file));
  const [history, act] = useReducer(applyAct, takeUpHistory(before, decisions));
  return { before, history, act };
};

/** Everything about one open score for the lever harp. */
export const LeverWorkspace = ({ file, opened, picker, dropping }: LeverWorkspaceProps) => {
  const { part, lost } = opened;
  const [choices, setChoices] = useState<Choices>(file.tuning === undefined ? {} : { tuning: file.tuning });
  const { before, history, act } = useHistory(file, opened);
  const kept = useKeeping(file, history);
  const decisions = history.present;
  const actions = useMemo(() => createDecisionActions(part, decisions, act), [part, decisions]);
  const order = useMemo(() => ({ file, choices, decisions }), [file, choices, decisions]);
  const { layout, onScreen } = useOrderOnScreen(order);
  const { levers, askAgain } = useLevers(onScreen);
  const { report, state, refusals } = levers;
  const trouble = (
    <PageTrouble sentence={typeof state === 'string' ? null : state.trouble} onAgain={askAgain} />
  );
  return (
    <ScreenLayoutProvider value={layout}>
      <div class={dropping ? 'workspace levers dropping' : 'workspace levers'}>
        <header>
          {report === null ? (
            <h1 tabIndex={-1}>{part.titles.title || file.name}</h1>
          ) : (
            <Heading file={file} report={report} />
          )}
          <HistoryBar
            history={history}
            refusals={state === 'ready' ? refusals : []}
            kept={kept}
            progress={progressOf(levers)}
            act={act}
          >
            {picker}
          </HistoryBar>
          {before === null && <RestoredLine opened={opened} actions={actions} />}
        </header>
        {report === null && trouble}
        {report !== null && (
          <LeverViews
            order={order}
            part={part}
            lost={lost}
            report={report}
            actions={actions}
            stale={state !== 'ready'}
            trouble={trouble}
            onChoose={setChoices}
          />
        )}
      </div>
    </ScreenLayoutProvider>
  );
};

import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { STRINGS } from '../../strings.ts';
import { DifficultyDetails } from '../difficulty-details.tsx';
import type { Choices } from '../options/choices.ts';
import { ChoicesPanel } from '../options/choices-panel.tsx';
import type { ReadPart } from '../planner/planned-part.ts';
import { PageTrouble } from '../score/page-trouble.tsx';
import type { OnPage } from '../score/pages-pane.tsx';
import type { ScoreFile } from '../service/annotate-request.ts';
import { LeverChart } from './lever-chart.tsx';
import { LeverCompare } from './lever-compare.tsx';
import { indexLeverPages } from './lever-markings.ts';
import { LeverPages } from './lever-pages.tsx';
import { fetchLevers } from './lever-request.ts';
import { LeverDetail, LeverFindings, LeverTunings } from './lever-side.tsx';
import { LeverTakeAway } from './lever-take-away.tsx';

/** What the service told last, null where it has told nothing yet, and what becomes of the question that is open. */
interface Levers {
  readonly report: LeverAnnotateReport | null;
  readonly state: 'asking' | 'ready' | { readonly trouble: string };
}

/** The plan and the pages, asked for anew with every choice; what was told before stays until then. */
const useLevers = (
  file: ScoreFile,
  choices: Choices,
): { readonly levers: Levers; readonly askAgain: () => void } => {
  const [levers, setLevers] = useState<Levers>({ report: null, state: 'asking' });
  const [times, setTimes] = useState(0);
  useEffect(() => {
    const leaving = new AbortController();
    setLevers(({ report }) => ({ report, state: 'asking' }));
    void fetchLevers(file, choices, leaving.signal).then(
      (answer) =>
        setLevers(({ report }) =>
          answer.ok
            ? { report: answer.value, state: 'ready' }
            : { report, state: { trouble: answer.sentence } },
        ),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [file, choices, times]);
  return { levers, askAgain: () => setTimes(times + 1) };
};

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
        {[report.composer, report.instrument].filter((each) => each !== '').join(' · ')}
        {' · '}
        <strong class={summary.playable ? '' : 'stop'}>{summary.difficulty.verdict}</strong>
        {' · '}
        {told.changes(summary.changes)}
        {!summary.provenOptimal && `, ${unproved}`}
        {!summary.allTuningsTried && `, ${told.tuningsUntried}`}
        {' · '}
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
  readonly part: ReadPart;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

type Selected = { readonly kind: 'move' | 'finding'; readonly index: number } | null;

/** Everything about one open score for the lever harp. */
export const LeverWorkspace = ({ file, part, picker, dropping }: LeverWorkspaceProps) => {
  const [choices, setChoices] = useState<Choices>({});
  const { levers, askAgain } = useLevers(file, choices);
  const { report, state } = levers;
  const trouble = (
    <PageTrouble sentence={typeof state === 'string' ? null : state.trouble} onAgain={askAgain} />
  );
  const tune = (tuning: string | null): void => {
    const { tuning: _, ...others } = choices;
    setChoices(tuning === null ? others : { ...others, tuning });
  };
  return (
    <div class={dropping ? 'workspace levers dropping' : 'workspace levers'}>
      <header>
        {report === null ? (
          <h1 tabIndex={-1}>{part.titles.title || file.name}</h1>
        ) : (
          <Heading file={file} report={report} />
        )}
        <div class="history">{picker}</div>
        <div class="telling">
          <p class="progress" role="status">
            {progressOf(levers)}
          </p>
        </div>
      </header>
      {report === null && trouble}
      {report !== null && (
        <LeverBoard
          file={file}
          part={part}
          report={report}
          stale={state !== 'ready'}
          trouble={trouble}
          choices={choices}
          onChoose={setChoices}
          onTune={tune}
        />
      )}
    </div>
  );
};

interface LeverBoardProps {
  readonly file: ScoreFile;
  readonly part: ReadPart;
  readonly report: LeverAnnotateReport;
  /** Another plan is being made, or was asked for in vain. */
  readonly stale: boolean;
  readonly trouble: ComponentChildren;
  readonly choices: Choices;
  readonly onChoose: (choices: Choices) => void;
  readonly onTune: (tuning: string | null) => void;
}

const notesOf = (report: LeverAnnotateReport, selected: Selected): readonly string[] => {
  if (selected === null) return [];
  if (selected.kind === 'finding') return report.findings[selected.index]?.notes ?? [];
  const note = report.moves[selected.index]?.neededBy ?? null;
  return note === null ? [] : [note];
};

const LeverBoard = ({ file, part, report, stale, trouble, choices, onChoose, onTune }: LeverBoardProps) => {
  const { bars } = part;
  const [selected, setSelected] = useState<Selected>(null);
  const [wish, setWish] = useState<OnPage | null>(null);
  const [barInView, setBarInView] = useState<number | null>(null);
  const index = useMemo(
    () =>
      indexLeverPages(
        report,
        bars.map(({ id }) => id),
      ),
    [report, bars],
  );
  const move = selected?.kind === 'move' ? selected.index : null;
  const asking = useMemo(() => notesOf(report, selected), [report, selected]);
  const selectMove = (chosen: number): void => {
    setSelected({ kind: 'move', index: chosen });
    const marking = index.markingOfMove[chosen] ?? null;
    setWish(
      marking === null ? null : { ids: [marking.id], page: marking.page, focus: false, windowStays: true },
    );
  };
  const selectMarking = (id: string): void => {
    setWish(null);
    const chosen = index.markingOfMove.findIndex((marking) => marking?.id === id);
    if (chosen === -1) setSelected(null);
    else if (chosen !== move) setSelected({ kind: 'move', index: chosen });
  };
  const selectFinding = (chosen: number): void => {
    setSelected({ kind: 'finding', index: chosen });
    const { notes, barIndex } = report.findings[chosen]!;
    setWish({
      ids: [...notes, bars[barIndex]!.id],
      page: index.pageOfBar(barIndex),
      focus: false,
      windowStays: false,
    });
  };
  return (
    <>
      <main>
        <LeverPages
          bars={bars}
          pages={report.pages}
          markings={index.markings}
          stale={stale}
          trouble={trouble}
          selected={index.markingOfMove[move ?? -1]?.id ?? null}
          asking={asking}
          wish={wish}
          onSelect={selectMarking}
          onBarInView={setBarInView}
        />
        <LeverChart
          bars={bars}
          moves={report.moves}
          selected={move}
          barInView={barInView}
          onSelect={selectMove}
        />
      </main>
      <aside aria-label={LEVER_STRINGS.detail.panel}>
        <LeverDetail report={report} move={move} />
        <LeverFindings
          report={report}
          selected={selected?.kind === 'finding' ? selected.index : null}
          onSelect={selectFinding}
        />
        <LeverTunings report={report} choices={choices} onTune={onTune} />
        <LeverTakeAway file={file} part={part} choices={choices} report={report} stale={stale} />
        <ChoicesPanel harp="lever" choices={choices} onChange={onChoose} />
        <LeverCompare file={file} />
      </aside>
    </>
  );
};

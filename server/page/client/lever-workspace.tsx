import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../api/lever-report.ts';
import { LEVER_STRINGS } from '../lever-strings.ts';
import { STRINGS } from '../strings.ts';
import type { ScoreFile } from './annotate-request.ts';
import { LeverChart } from './lever-chart.tsx';
import { LeverCompare } from './lever-compare.tsx';
import { LeverPages } from './lever-pages.tsx';
import { fetchLevers, type LeverChoices } from './lever-request.ts';
import { LeverDetail, LeverFindings, LeverLooks, LeverTakeAway, LeverTunings } from './lever-side.tsx';
import type { PageWish } from './page-sheet.tsx';
import type { BarPlace, ReadPart } from './planned-part.ts';

type Levers =
  | { readonly kind: 'asking'; readonly before: LeverAnnotateReport | null }
  | { readonly kind: 'told'; readonly report: LeverAnnotateReport }
  | { readonly kind: 'failed'; readonly sentence: string };

/** The plan and the pages, asked for anew with every choice; what was told before stays until then. */
const useLevers = (file: ScoreFile, choices: LeverChoices): Levers => {
  const [levers, setLevers] = useState<Levers>({ kind: 'asking', before: null });
  useEffect(() => {
    const leaving = new AbortController();
    setLevers((now) => ({ kind: 'asking', before: now.kind === 'told' ? now.report : null }));
    void fetchLevers(file, choices, leaving.signal).then(
      (answer) =>
        setLevers(
          answer.ok ? { kind: 'told', report: answer.value } : { kind: 'failed', sentence: answer.sentence },
        ),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [file, choices]);
  return levers;
};

const reportOf = (levers: Levers): LeverAnnotateReport | null => {
  if (levers.kind === 'told') return levers.report;
  return levers.kind === 'asking' ? levers.before : null;
};

/** The marking that prints each change: an id as the pages have it, in the order of the moves. */
const readMarkings = (pages: readonly string[]): readonly { readonly id: string; readonly key: string }[] =>
  pages.flatMap((page) =>
    [...page.matchAll(/<g id="(marking-[\d-]+)" class="[^"]*lever-marking[^"]*"([^>]*)>/g)].map(
      ([, id, tag]) => ({
        id: id!,
        key: ` ${/ data-onset="([^"]*)"/.exec(tag!)?.[1]} ${/ data-strings="([^"]*)"/.exec(tag!)?.[1]} `,
      }),
    ),
  );

const markingOf = (report: LeverAnnotateReport, move: number | null): string | null => {
  const told = move === null ? undefined : report.moves[move];
  if (told === undefined) return null;
  const markings = readMarkings(report.pages);
  return (
    markings.find(({ key }) => key.startsWith(` ${told.at} `) && key.includes(` ${told.change} `))?.id ?? null
  );
};

const Heading = ({ file, report }: { readonly file: ScoreFile; readonly report: LeverAnnotateReport }) => {
  const { summary, tuning, levers } = report;
  const { unproved, playable, unplayable } = STRINGS.summary;
  const told = LEVER_STRINGS.summary;
  return (
    <div class="piece">
      <h1>{report.title || file.name}</h1>
      <p>
        {[report.composer, report.instrument].filter((each) => each !== '').join(' · ')}
        {' · '}
        <strong class={summary.playable ? '' : 'stop'}>
          {summary.firstFailure === null ? playable : unplayable(summary.firstFailure)}
        </strong>
        {' · '}
        {told.changes(summary.changes)}
        {!summary.proved && `, ${unproved}`}
        {' · '}
        {told.tuning(tuning)}
        {', '}
        {told.levers(levers)}
      </p>
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
  const [choices, setChoices] = useState<LeverChoices>({});
  const levers = useLevers(file, choices);
  const report = reportOf(levers);
  const tell =
    levers.kind === 'failed' ? levers.sentence : levers.kind === 'asking' ? LEVER_STRINGS.progress : '';
  const tune = (tuning: string | null): void => {
    const { tuning: _, ...others } = choices;
    setChoices(tuning === null ? others : { ...others, tuning });
  };
  return (
    <div class={dropping ? 'workspace levers dropping' : 'workspace levers'}>
      <header>
        {report === null ? (
          <h1>{part.titles.title || file.name}</h1>
        ) : (
          <Heading file={file} report={report} />
        )}
        {picker}
        <p class="progress" role="status">
          {tell || (report === null ? '' : STRINGS.progress.drawn(report.pages.length))}
        </p>
      </header>
      {report !== null && (
        <LeverBoard
          file={file}
          bars={part.bars}
          report={report}
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
  readonly bars: readonly BarPlace[];
  readonly report: LeverAnnotateReport;
  readonly choices: LeverChoices;
  readonly onChoose: (choices: LeverChoices) => void;
  readonly onTune: (tuning: string | null) => void;
}

const LeverBoard = ({ file, bars, report, choices, onChoose, onTune }: LeverBoardProps) => {
  const [selected, setSelected] = useState<Selected>(null);
  const [wish, setWish] = useState<PageWish | null>(null);
  const move = selected?.kind === 'move' ? selected.index : null;
  const marking = useMemo(() => markingOf(report, move), [report, move]);
  const asking = report.moves[move ?? -1]?.neededBy;
  const selectMove = (index: number): void => {
    setSelected({ kind: 'move', index });
    const id = markingOf(report, index);
    setWish(id === null ? null : { ids: [id], focus: false });
  };
  const selectMarking = (id: string): void => {
    const index = report.moves.findIndex((_, i) => markingOf(report, i) === id);
    if (index !== -1 && index !== move) setSelected({ kind: 'move', index });
  };
  const selectFinding = (index: number): void => {
    setSelected({ kind: 'finding', index });
    const { notes, bar } = report.findings[index]!;
    const barId = bars.find(({ number }) => number === bar)?.id;
    setWish({ ids: [...notes, ...(barId === undefined ? [] : [barId])], focus: false });
  };
  const notes =
    selected?.kind === 'finding' ? report.findings[selected.index]?.notes : asking == null ? [] : [asking];
  return (
    <>
      <main>
        <LeverPages
          pages={report.pages}
          selected={marking}
          asking={notes ?? []}
          wish={wish}
          onSelect={selectMarking}
        />
        <LeverChart bars={bars} moves={report.moves} selected={move} onSelect={selectMove} />
      </main>
      <aside aria-label={LEVER_STRINGS.detail.heading}>
        <LeverDetail report={report} move={move} />
        <LeverFindings
          report={report}
          selected={selected?.kind === 'finding' ? selected.index : null}
          onSelect={selectFinding}
        />
        <LeverTunings report={report} choices={choices} onTune={onTune} />
        <LeverTakeAway file={file} choices={choices} title={report.title} />
        <LeverLooks choices={choices} onChange={onChoose} />
        <LeverCompare file={file} />
      </aside>
    </>
  );
};

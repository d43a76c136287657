import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { formatSetting } from '../../../engine/harp/setting.ts';
import type { Plan } from '../../../engine/plan/model.ts';
import { STRINGS } from '../strings.ts';
import type { ScoreFile } from './annotate-request.ts';
import { browserMemory } from './browser-memory.ts';
import { type Choices, planChoicesOf } from './choices.ts';
import { ChoicesPanel } from './choices-panel.tsx';
import { DecisionsPanel } from './decisions-panel.tsx';
import { openDesk } from './desk.ts';
import { DetailPanel } from './detail-panel.tsx';
import { type DrawnPages, usePages } from './drawn-pages.ts';
import type { EngineClient } from './engine-client.ts';
import type { OpenedPart } from './engine-messages.ts';
import { FindingsList } from './findings-list.tsx';
import { useSelection } from './followed-selection.ts';
import { HistoryBar } from './history-bar.tsx';
import { keepWork, keyOfFile } from './kept-work.ts';
import { ListenSection } from './listen-section.tsx';
import type { Listening } from './listening.ts';
import { PedalChart } from './pedal-chart.tsx';
import type { PlannedPart } from './planned-part.ts';
import { recallChoices, rememberChoices } from './remembered-choices.ts';
import { RestoredLine } from './restored-line.tsx';
import { ScorePages } from './score-pages.tsx';
import { selectedBar } from './selected-bar.ts';
import { keepHistory, recallHistory } from './session-work.ts';
import type { Spot, View } from './spot.ts';
import { TakeAway } from './take-away.tsx';
import type { WorkHistory } from './work-history.ts';
import { useWorkedPart } from './worked-part.ts';

export interface WorkspaceProps {
  readonly file: ScoreFile;
  readonly opened: OpenedPart;
  readonly replan: EngineClient['replan'];
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

const tellPages = (drawn: DrawnPages): string => {
  switch (drawn.kind) {
    case 'drawing':
      return STRINGS.progress.drawing;
    case 'drawn':
      if (drawn.stale === false) return STRINGS.progress.drawn(drawn.pages.length);
      return drawn.stale.trouble === null ? STRINGS.progress.redrawing : '';
    case 'failed':
      return drawn.sentence;
  }
};

const Heading = ({ file, part }: { readonly file: ScoreFile; readonly part: PlannedPart }) => {
  const { summary, initial } = part.plan;
  const { moves, unproved, unplayable, playable, start } = STRINGS.summary;
  const verdict =
    summary.firstFailure === null ? playable : unplayable(part.bars[summary.firstFailure]?.number ?? '');
  return (
    <div class="piece">
      <h1 tabIndex={-1}>{part.titles.title || file.name}</h1>
      <p>
        {[part.titles.composer, part.partName].filter((each) => each !== '').join(' · ')}
        {' · '}
        <strong class={summary.playable ? '' : 'stop'}>{verdict}</strong>
        {' · '}
        {moves(summary.moves, summary.leastMoves)}
        {!summary.proved && `, ${unproved}`}
        {' · '}
        <span class="names">{start(formatSetting(initial))}</span>
      </p>
    </div>
  );
};

/** Remembers the look over visits. */
const useChoices = () => {
  const [choices, setChoices] = useState<Choices>(recallChoices);
  useEffect(() => rememberChoices(choices), [choices]);
  return [choices, setChoices] as const;
};

/** Keeps the work in this session and in the browser, from the first decision on. @returns whether that could be done */
const useKeeping = (file: ScoreFile, history: WorkHistory): boolean => {
  const [kept, setKept] = useState(true);
  const key = useMemo(() => keyOfFile(file), [file]);
  useEffect(() => {
    if (history.latest === null) return;
    keepHistory(file, history);
    setKept(keepWork(browserMemory, key, history.present));
  }, [history]);
  return kept;
};

/** Everything about one open score. */
export const Workspace = ({ file, opened, replan, picker, dropping }: WorkspaceProps) => {
  const [choices, setChoices] = useChoices();
  const [before] = useState(() => recallHistory(file));
  const { history, act, part, refusals } = useWorkedPart(opened, before, planChoicesOf(choices), replan);
  const kept = useKeeping(file, history);
  const work = history.present;
  const desk = useMemo(() => openDesk(part, work, act), [part, work]);
  // The pages follow the plan: they are asked for with the decisions that it was made with.
  const order = useMemo(() => ({ file, choices, work: part.inForce }), [file, choices, part.inForce]);
  const { drawn, redraw } = usePages(order, part);
  const index = drawn.kind === 'drawn' ? drawn.index : null;
  const [selection, select] = useSelection(part.plan, index);
  const [listening, setListening] = useState<Listening | null>(null);
  const [peeked, setPeek] = useState<{ readonly spot: Spot | null; readonly plan: Plan } | null>(null);
  const peek = peeked?.plan === part.plan ? peeked.spot : null;
  const onPeek = (spot: Spot | null): void => setPeek({ spot, plan: part.plan });
  const selectFrom = (origin: View) => (spot: Spot) => {
    setPeek(null);
    select({ spot, origin });
  };
  // What is long is drawn anew only when it changes, not with every marking that is pointed at.
  const findings = useMemo(
    () => <FindingsList part={part} selection={selection} desk={desk} onSelect={selectFrom('findings')} />,
    [part, selection, desk],
  );
  const decisions = useMemo(
    () => <DecisionsPanel part={part} desk={desk} onSelect={selectFrom('decisions')} />,
    [part, desk],
  );
  const choosing = useMemo(() => <ChoicesPanel choices={choices} onChange={setChoices} />, [choices]);
  return (
    <div class={dropping ? 'workspace dropping' : 'workspace'}>
      <header>
        <Heading file={file} part={part} />
        {picker}
        <HistoryBar history={history} refusals={refusals} kept={kept} progress={tellPages(drawn)} act={act} />
        {before === null && <RestoredLine opened={opened} desk={desk} />}
      </header>
      <main>
        <ScorePages
          part={part}
          drawn={drawn}
          selection={selection}
          onSelect={selectFrom('score')}
          onPeek={onPeek}
          onRedraw={redraw}
          listening={listening}
        />
        <PedalChart
          part={part}
          index={index}
          selection={selection}
          desk={desk}
          listening={listening}
          onSelect={selectFrom('chart')}
          onPeek={onPeek}
        />
      </main>
      <aside aria-label={STRINGS.detail.heading}>
        <ListenSection
          part={part}
          footRestSeconds={planChoicesOf(choices).footRestSeconds}
          selectedBar={selectedBar(selection, part, index)}
          onListening={setListening}
        />
        <DetailPanel part={part} index={index} spot={peek ?? selection?.spot ?? null} desk={desk} />
        {findings}
        {decisions}
        <TakeAway order={order} part={part} drawn={drawn} />
        {choosing}
      </aside>
    </div>
  );
};

import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { formatSetting } from '../../../engine/harp/setting.ts';
import { STRINGS } from '../strings.ts';
import type { ScoreFile } from './annotate-request.ts';
import { type Choices, recallChoices, rememberChoices } from './choices.ts';
import { ChoicesPanel } from './choices-panel.tsx';
import { DetailPanel } from './detail-panel.tsx';
import { FindingsList } from './findings-list.tsx';
import { type DrawnPages, usePages } from './opened-score.ts';
import { PedalChart } from './pedal-chart.tsx';
import type { PlannedPart } from './planned-part.ts';
import { ScorePages } from './score-pages.tsx';
import type { Selection, Spot, View } from './spot.ts';
import { TakeAway } from './take-away.tsx';

export interface WorkspaceProps {
  readonly file: ScoreFile;
  readonly part: PlannedPart;
  readonly picker: ComponentChildren;
  readonly dropping: boolean;
}

const tellPages = (drawn: DrawnPages): string => {
  switch (drawn.kind) {
    case 'drawing':
      return STRINGS.progress.drawing;
    case 'drawn':
      return STRINGS.progress.drawn(drawn.pages.length);
    case 'failed':
      return drawn.sentence;
  }
};

const Heading = ({ file, part }: { readonly file: ScoreFile; readonly part: PlannedPart }) => {
  const { summary, initial } = part.plan;
  const { moves, unplayable, playable, start } = STRINGS.summary;
  const verdict =
    summary.firstFailure === null ? playable : unplayable(part.bars[summary.firstFailure]?.number ?? '');
  return (
    <div class="piece">
      <h1>{part.titles.title || file.name}</h1>
      <p>
        {[part.titles.composer, part.partName].filter((each) => each !== '').join(' · ')}
        {' · '}
        <strong class={summary.playable ? '' : 'stop'}>{verdict}</strong>
        {' · '}
        {moves(summary.moves, summary.leastMoves)}
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

/** Everything about one open score. */
export const Workspace = ({ file, part, picker, dropping }: WorkspaceProps) => {
  const [choices, setChoices] = useChoices();
  const { drawn, redraw } = usePages(file, part, choices);
  const [selection, setSelection] = useState<Selection | null>(null);
  const [peek, setPeek] = useState<Spot | null>(null);
  const index = drawn.kind === 'drawn' ? drawn.index : null;
  const selectFrom = useMemo(
    () => (origin: View) => (spot: Spot) => {
      setPeek(null);
      setSelection({ spot, origin });
    },
    [],
  );
  return (
    <div class={dropping ? 'workspace dropping' : 'workspace'}>
      <header>
        <Heading file={file} part={part} />
        {picker}
        <p class="progress" role="status">
          {tellPages(drawn)}
        </p>
      </header>
      <main>
        <ScorePages
          part={part}
          drawn={drawn}
          selection={selection}
          onSelect={selectFrom('score')}
          onPeek={setPeek}
          onRedraw={redraw}
        />
        <PedalChart
          part={part}
          index={index}
          selection={selection}
          onSelect={selectFrom('chart')}
          onPeek={setPeek}
        />
      </main>
      <aside aria-label={STRINGS.detail.heading}>
        <DetailPanel part={part} index={index} spot={peek ?? selection?.spot ?? null} />
        <FindingsList part={part} selection={selection} onSelect={selectFrom('findings')} />
        <TakeAway file={file} part={part} drawn={drawn} choices={choices} />
        <ChoicesPanel choices={choices} onChange={setChoices} />
      </aside>
    </div>
  );
};

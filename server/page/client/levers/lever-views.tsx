import type { ComponentChildren } from 'preact';
import { useCallback, useMemo, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { OpenedSection } from '../controls/opened-section.tsx';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { DecisionsPanel } from '../decisions/decisions-panel.tsx';
import { type Choices, chosenOf } from '../options/choices.ts';
import { ChoicesPanel } from '../options/choices-panel.tsx';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { FileProof } from '../proof/file-proof.tsx';
import type { OnPage } from '../score/pages-pane.tsx';
import { useFollowedValue } from '../selection/followed-value.ts';
import type { Order } from '../service/annotate-request.ts';
import { LeverChart } from './lever-chart.tsx';
import { LeverCompare } from './lever-compare.tsx';
import { LeverForms } from './lever-forms.tsx';
import { indexLeverPages } from './lever-markings.ts';
import { followChange, type LeverMoves } from './lever-moves.ts';
import { LeverPages } from './lever-pages.tsx';
import { LeverDetail, LeverFindings, LeverTunings } from './lever-side.tsx';
import { LeverTakeAway } from './lever-take-away.tsx';

export interface LeverViewsProps {
  readonly order: Order;
  readonly part: ReadPart;
  /** What became of decisions that have no place in this part, in sentences. */
  readonly lost: readonly string[];
  readonly report: LeverAnnotateReport;
  readonly actions: DecisionActions;
  /** Another plan is being made, or was asked for in vain. */
  readonly stale: boolean;
  readonly trouble: ComponentChildren;
  readonly onChoose: (choices: Choices) => void;
}

type Selected =
  | { readonly kind: 'move' | 'finding'; readonly index: number }
  /** Id of a note. */
  | { readonly kind: 'note'; readonly id: string }
  | null;

const notesOf = (report: LeverAnnotateReport, selected: Selected): readonly string[] => {
  if (selected === null) return [];
  if (selected.kind === 'note') return [selected.id];
  if (selected.kind === 'finding') return report.findings[selected.index]?.notes ?? [];
  const note = report.moves[selected.index]?.neededBy ?? null;
  return note === null ? [] : [note];
};

/** Changes are counted anew with each plan: the one that is looked at is found again in it. */
const followSelected = (
  selected: Selected,
  [before]: readonly [LeverMoves],
  [now]: readonly [LeverMoves],
): Selected => {
  if (selected?.kind !== 'move') return selected;
  const index = followChange(before[selected.index], now);
  return index === null ? null : { kind: 'move', index };
};

const loadPlayer = async () => (await import('./board/lever-listen.tsx')).LeverListen;

/** The score, the chart and what stands beside them. */
export const LeverViews = (props: LeverViewsProps) => {
  const { order, part, lost, report, actions, stale, trouble, onChoose } = props;
  const { file, choices } = order;
  const { bars } = part;
  const [selected, setSelected] = useFollowedValue<Selected, readonly [LeverMoves]>(
    null,
    [report.moves],
    followSelected,
  );
  const [wish, setWish] = useState<OnPage | null>(null);
  const [barInView, setBarInView] = useState<number | null>(null);
  const [listening, setListening] = useState<Listening | null>(null);
  const omitted = useMemo(() => new Set(report.omitted), [report]);
  const index = useMemo(
    () =>
      indexLeverPages(
        report,
        bars.map(({ id }) => id),
      ),
    [report, bars],
  );
  // Changes are counted anew with each plan.
  const move = selected?.kind === 'move' && selected.index < report.moves.length ? selected.index : null;
  const asking = useMemo(() => notesOf(report, selected), [report, selected]);
  const selectMove = (chosen: number): void => {
    setSelected({ kind: 'move', index: chosen });
    const marking = index.markingOfMove[chosen] ?? null;
    setWish(marking === null ? null : { ids: [marking.id], page: marking.page, focus: false, reach: 'pane' });
  };
  const selectMarking = (id: string): void => {
    const chosen = index.markingOfMove.findIndex((marking) => marking?.id === id);
    const page = index.markings.find((marking) => marking.id === id)?.page;
    setWish(page === undefined ? null : { ids: [id], page, focus: false, reach: 'nearest' });
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
      reach: 'window',
    });
  };
  const selectNote = (id: string): void => {
    const page = index.pageOfBar(part.notes.get(id)!.bar);
    setSelected({ kind: 'note', id });
    setWish({ ids: [id], page, focus: false, reach: 'nearest' });
  };
  const leave = useCallback(() => setSelected(null), []);
  const goTo = (bar: number): void =>
    setWish({ ids: [bars[bar]?.id ?? ''], page: index.pageOfBar(bar), focus: false, reach: 'window' });
  const tune = (tuning: string | null): void => {
    const { tuning: _, ...others } = choices;
    onChoose(tuning === null ? others : { ...others, tuning });
  };
  return (
    <>
      <main>
        <LeverPages
          part={part}
          report={report}
          actions={actions}
          index={index}
          listening={listening}
          stale={stale}
          trouble={trouble}
          selected={index.markingOfMove[move ?? -1]?.id ?? null}
          asking={asking}
          wish={wish}
          onSelect={selectMarking}
          onNote={selectNote}
          onBarInView={setBarInView}
        />
        <LeverChart
          part={part}
          report={report}
          actions={actions}
          listening={listening}
          selected={move}
          barInView={barInView}
          onSelect={selectMove}
        />
      </main>
      <aside aria-label={LEVER_STRINGS.detail.panel}>
        <OpenedSection
          name="listen"
          heading={STRINGS.listen.heading}
          label={LEVER_STRINGS.listen.open}
          load={loadPlayer}
          view={{
            part,
            report,
            omitted,
            leverSeconds: Number(chosenOf(choices, 'leverSeconds', 'lever')),
            selectedBar: move === null ? null : report.moves[move]!.barIndex,
            onListening: setListening,
          }}
        />
        <LeverDetail
          part={part}
          report={report}
          actions={actions}
          move={move}
          note={selected?.kind === 'note' ? selected.id : null}
          onChange={selectMove}
          onLeave={leave}
        />
        <LeverFindings
          report={report}
          selected={selected?.kind === 'finding' ? selected.index : null}
          onSelect={selectFinding}
        />
        {part.markings > 0 && (
          <FileProof
            file={file}
            choices={choices}
            part={part}
            onSelect={(spot) => {
              if (spot.kind === 'place') goTo(spot.bar);
            }}
          />
        )}
        <DecisionsPanel
          part={part}
          actions={actions}
          lost={lost}
          none={LEVER_STRINGS.decisions.none}
          onGo={({ bar }) => goTo(bar)}
        >
          <LeverForms part={part} report={report} actions={actions} />
        </DecisionsPanel>
        <LeverTunings report={report} choices={choices} onTune={tune} />
        <LeverTakeAway {...{ order, part, report, stale, onChoose }} />
        <ChoicesPanel harp="lever" choices={choices} onChange={onChoose} />
        <LeverCompare file={file} />
      </aside>
    </>
  );
};

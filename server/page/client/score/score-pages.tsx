import { useMemo, useRef } from 'preact/hooks';
import type { Move } from '../../../../engine/index.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { MoveActions } from '../decisions/move-actions.tsx';
import { NoteActions } from '../findings/note-card.tsx';
import { noteCourse } from '../findings/note-course.ts';
import { askingNotes } from '../planner/asking-notes.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { markingOf, movesOf } from '../selection/selected-moves.ts';
import type { Selection, Spot, View } from '../selection/spot.ts';
import type { ComparedPlan } from '../variants/compared-plan.ts';
import { movesOnPage } from './drag/moved-markings.ts';
import { musicOf } from './drag/page-times.ts';
import type { DrawnPages } from './drawn/drawn-pages.ts';
import type { PageIndex } from './drawn/page-markings.ts';
import { useFollowing } from './follow-pages.ts';
import type { OnPage, PageEmphasis } from './page-sheet.tsx';
import { PagesPane } from './pages-pane.tsx';
import { PagesSection, pageCountOf } from './pages-section.tsx';

export interface ScorePagesProps {
  /** Another plan is being made. */
  readonly isPlanning: boolean;
  readonly part: PlannedPart;
  readonly drawn: DrawnPages;
  readonly selection: Selection | null;
  readonly actions: DecisionActions;
  readonly onSelect: (spot: Spot) => void;
  readonly onPeek: (spot: Spot | null) => void;
  readonly onRedraw: () => void;
  /** Another plan, whose moves are shown too. */
  readonly compared: ComparedPlan<Move> | null;
  readonly listening: Listening | null;
  /** The user scrolled: a bar, as an index, now comes first in view. */
  readonly onBarInView: (bar: number) => void;
}

const REACH: Partial<Record<View, OnPage['reach']>> = { score: 'nearest', chart: 'pane' };

/** Where the selection is on the pages, if the user chose it. */
const wishFor = (part: PlannedPart, index: PageIndex, selection: Selection | null): OnPage | null => {
  if (selection === null || selection.origin === 'plan') return null;
  const { spot } = selection;
  const how = { focus: false, reach: REACH[selection.origin] ?? 'window' } as const;
  if (spot.kind === 'place') {
    return { ids: [part.bars[spot.bar]?.id ?? ''], page: index.pageOfBar(spot.bar), ...how };
  }
  if (spot.kind === 'finding') {
    const { bar, notes } = part.plan.findings[spot.finding]!;
    return { ids: [...notes, part.bars[bar]!.id], page: index.pageOfBar(bar), ...how };
  }
  if (spot.kind === 'note') {
    const bar = part.notes.get(spot.id)?.bar ?? 0;
    return { ids: [spot.id, part.bars[bar]?.id ?? ''], page: index.pageOfBar(bar), ...how };
  }
  const marking = markingOf(spot, index);
  return marking === null ? null : { ids: [marking.id], page: marking.page, ...how };
};

const emphasisFor = (
  part: PlannedPart,
  index: PageIndex,
  selection: Selection | null,
  compared: ScorePagesProps['compared'],
): PageEmphasis => {
  const spot = selection?.spot ?? null;
  const selected = markingOf(spot, index)?.id ?? null;
  const notes =
    spot?.kind === 'finding'
      ? part.plan.findings[spot.finding]!.notes
      : spot?.kind === 'note'
        ? [spot.id]
        : movesOf(spot, index).flatMap((move) => askingNotes(part, part.plan.moves[move]!));
  const onlyHere = (compared?.own ?? []).flatMap((own) => index.markingOfMove[own.index]?.id ?? []);
  return { selected, notes, onlyHere, tabStop: selected ?? index.markings[0]?.id ?? null };
};

type DrawnProps = Omit<ScorePagesProps, 'drawn' | 'onRedraw'> & {
  readonly pages: readonly string[];
  /** How many there will be. */
  readonly of: number;
  readonly index: PageIndex;
  readonly stale: boolean;
};

const Pages = (props: DrawnProps) => {
  const { part, pages, index, stale, selection, actions, onSelect, onPeek, listening, compared } = props;
  const spot = selection?.spot ?? null;
  const pane = useRef<HTMLDivElement>(null);
  useFollowing(pane, listening, part, index);
  const emphasis = useMemo(
    () => emphasisFor(part, index, selection, compared),
    [part, index, selection, compared],
  );
  const moves = useMemo(
    () => movesOnPage(part, index, actions, movesOf(spot, index), (move) => onSelect({ kind: 'move', move })),
    [part, index, actions, spot],
  );
  const others = useMemo(
    () => (compared === null ? null : { moves: compared.others, music: musicOf(part) }),
    [part.bars, compared],
  );
  // Pages that are drawn anew bring nothing into view again: they stay where they are.
  const wish = useMemo(() => wishFor(part, index, selection), [selection]);
  return (
    <PagesPane
      pane={pane}
      bars={part.bars}
      pages={pages}
      of={props.of}
      markings={index.markings}
      stale={stale}
      isPlanning={props.isPlanning}
      listening={listening !== null}
      emphasis={emphasis}
      moves={moves}
      others={others}
      actionsOn={({ kind, id }) => {
        if (kind === 'note') {
          const isMovable = part.notes.has(id) && noteCourse(part, id) !== null;
          return isMovable ? <NoteActions part={part} actions={actions} note={id} /> : null;
        }
        const told = movesOf({ kind: 'marking', id }, index);
        if (told.length === 0) return null;
        return told.map((at) => <MoveActions key={at} part={part} actions={actions} at={at} />);
      }}
      wish={wish}
      onSelect={(id) => onSelect({ kind: 'marking', id })}
      onNote={(id) => part.notes.has(id) && onSelect({ kind: 'note', id })}
      onPeek={(id) => onPeek(id === null ? null : { kind: 'marking', id })}
      onBarInView={props.onBarInView}
    />
  );
};

/** The annotated pages as they will print. */
export const ScorePages = ({ drawn, onRedraw, ...props }: ScorePagesProps) => (
  <PagesSection drawn={drawn} onRedraw={onRedraw}>
    {(there) => (
      <Pages
        {...props}
        pages={there.pages}
        of={pageCountOf(there)}
        index={there.index}
        stale={there.stale !== false}
      />
    )}
  </PagesSection>
);

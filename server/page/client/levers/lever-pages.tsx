import type { ComponentChildren } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { useFollowing } from '../score/follow-pages.ts';
import { type OnPage, PagesHeading, PagesPane } from '../score/pages-pane.tsx';
import { ChangeActions } from './lever-actions.tsx';
import { changesOfMarking, type LeverIndex } from './lever-markings.ts';
import { leverMovesOnPage } from './lever-moves-on-page.ts';
import { LeverNoteActions } from './lever-note.tsx';
import { leverNoteCourse } from './lever-note-course.ts';

export interface LeverPagesProps {
  readonly part: ReadPart;
  readonly report: LeverAnnotateReport;
  readonly actions: DecisionActions;
  readonly index: LeverIndex;
  readonly listening: Listening | null;
  /** They are of an earlier plan or look. */
  readonly stale: boolean;
  /** Why they still are. */
  readonly trouble: ComponentChildren;
  /** Id of the marking that is looked at. */
  readonly selected: string | null;
  /** Ids of the notes that ask for it. */
  readonly asking: readonly string[];
  readonly wish: OnPage | null;
  readonly onSelect: (marking: string) => void;
  readonly onNote: (note: string) => void;
  /** The user scrolled: a bar, as an index, now comes first in view. */
  readonly onBarInView: (bar: number) => void;
}

/** The pages of a part for the lever harp. */
export const LeverPages = (all: LeverPagesProps) => {
  const { asking, selected, trouble, part, report, actions, index, listening, ...props } = all;
  const { moves, pages } = report;
  const { markings } = index;
  const pane = useRef<HTMLDivElement>(null);
  useFollowing(pane, listening, part, index);
  const emphasis = useMemo(
    () => ({ selected, notes: asking, tabStop: selected ?? markings[0]?.id ?? null }),
    [selected, asking, markings],
  );
  const onPage = useMemo(() => leverMovesOnPage(part, moves, index, actions), [part, moves, index, actions]);
  return (
    <section class="score">
      <PagesHeading />
      {trouble}
      <PagesPane
        {...props}
        pages={pages}
        bars={part.bars}
        of={pages.length}
        markings={markings}
        pane={pane}
        listening={listening !== null}
        emphasis={emphasis}
        moves={onPage}
        others={null}
        actionsOn={({ kind, id }) => {
          if (kind === 'note') {
            const isMovable = leverNoteCourse(part, report, id) !== null;
            return isMovable ? <LeverNoteActions {...{ part, report, actions }} note={id} /> : null;
          }
          const told = changesOfMarking(index, id);
          if (told.length === 0) return null;
          return told.map((at) => <ChangeActions key={at} {...{ part, moves, actions, at }} />);
        }}
        onNote={(id) => part.notes.has(id) && all.onNote(id)}
        onPeek={() => {}}
      />
    </section>
  );
};

import type { ComponentChildren } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import type { AskedAt } from '../score/at-hand.tsx';
import { musicOf } from '../score/drag/page-times.ts';
import type { DrawnPages } from '../score/drawn/drawn-pages.ts';
import { useFollowing } from '../score/follow-pages.ts';
import { PagesPane } from '../score/pages-pane.tsx';
import { PagesSection, type PagesThere, pageCountOf } from '../score/pages-section.tsx';
import type { ComparedPlan } from '../variants/compared-plan.ts';
import { changesOfMarking, type LeverIndex } from './lever-markings.ts';
import type { LeverMove } from './lever-moves.ts';
import { leverMovesOnPage } from './lever-moves-on-page.ts';
import type { LeverLooking } from './lever-selection.ts';
import { ChangeActions } from './side/lever-actions.tsx';
import { LeverNoteActions } from './side/lever-note.tsx';
import { leverNoteCourse } from './side/lever-note-course.ts';

interface LeverPagesProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
  readonly drawn: DrawnPages<LeverIndex>;
  readonly listening: Listening | null;
  /** Another plan is being made. */
  readonly isPlanning: boolean;
  readonly looking: LeverLooking;
  /** Another plan, whose changes are shown too. */
  readonly compared: ComparedPlan<LeverMove> | null;
  readonly onRedraw: () => void;
  /** The user scrolled: a bar, as an index, now comes first in view. */
  readonly onBarInView: (bar: number) => void;
}

type ThereProps = Omit<LeverPagesProps, 'drawn' | 'onRedraw'> & { readonly there: PagesThere<LeverIndex> };

/** What can be done with something on the pages; null for nothing. */
const actionsOn = (
  { part, report, actions, there: { index } }: ThereProps,
  { kind, id }: Pick<AskedAt, 'kind' | 'id'>,
): ComponentChildren => {
  if (kind === 'note') {
    const isMovable = leverNoteCourse(part, report, id) !== null;
    return isMovable ? <LeverNoteActions {...{ part, report, actions }} note={id} /> : null;
  }
  const told = changesOfMarking(index, id);
  if (told.length === 0) return null;
  return told.map((at) => <ChangeActions key={at} {...{ part, moves: report.moves, actions, at }} />);
};

const Pages = (props: ThereProps) => {
  const { part, report, actions, listening, looking, compared, there } = props;
  const { moves } = report;
  const { index } = there;
  const pane = useRef<HTMLDivElement>(null);
  useFollowing(pane, listening, part, index);
  const selected = index.markingOfMove[looking.move ?? -1]?.id ?? null;
  const emphasis = useMemo(
    () => ({
      selected,
      notes: looking.asking,
      onlyHere: (compared?.own ?? []).flatMap((own) => index.markingOfMove[own.index]?.id ?? []),
      tabStop: selected ?? index.markings[0]?.id ?? null,
    }),
    [selected, looking.asking, index, compared],
  );
  const onPage = useMemo(
    () => leverMovesOnPage(part, moves, index, actions, looking.move),
    [part, moves, index, actions, looking.move],
  );
  const others = useMemo(
    () => (compared === null ? null : { moves: compared.others, music: musicOf(part) }),
    [part, compared],
  );
  return (
    <PagesPane
      pane={pane}
      bars={part.bars}
      pages={there.pages}
      of={pageCountOf(there)}
      markings={index.markings}
      stale={there.stale !== false}
      isPlanning={props.isPlanning}
      listening={listening !== null}
      emphasis={emphasis}
      moves={onPage}
      others={others}
      actionsOn={(what) => actionsOn(props, what)}
      wish={looking.wish}
      onSelect={looking.lookAtMarking}
      onNote={(id) => part.notes.has(id) && looking.look({ kind: 'note', id }, 'nearest')}
      onPeek={() => {}}
      onBarInView={props.onBarInView}
    />
  );
};

/** The pages of a part for the lever harp. */
export const LeverPages = ({ drawn, onRedraw, ...props }: LeverPagesProps) => (
  <PagesSection drawn={drawn} onRedraw={onRedraw}>
    {(there) => <Pages {...props} there={there} />}
  </PagesSection>
);

import { useCallback, useMemo, useState } from 'preact/hooks';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { OnPage } from '../score/page-sheet.tsx';
import { useFollowedValue } from '../selection/followed-value.ts';
import type { LeverIndex } from './lever-markings.ts';
import { changeQuarters, followChange, type LeverMoves } from './lever-moves.ts';

/** What the user looks at. */
export type LeverSpot =
  /** Index into the moves, or the findings, of the plan. */
  | { readonly kind: 'move' | 'finding'; readonly index: number }
  /** Id of a note. */
  | { readonly kind: 'note'; readonly id: string }
  /** Index into the bars. */
  | { readonly kind: 'place'; readonly bar: number; readonly quarters: number };

/** Where the chart is to scroll: a score time in quarters, a new object for each wish. */
export interface ChartWish {
  readonly quarters: number;
}

/** Changes are counted anew with each plan: the one that is looked at is found again in it. */
const followSpot = (
  spot: LeverSpot | null,
  [before]: readonly [LeverMoves],
  [now]: readonly [LeverMoves],
): LeverSpot | null => {
  if (spot?.kind !== 'move') return spot;
  const index = followChange(before[spot.index], now);
  return index === null ? null : { kind: 'move', index };
};

/** The notes that what is looked at is about. */
const notesOf = ({ findings, moves }: LeverPlanReport, spot: LeverSpot | null): readonly string[] => {
  switch (spot?.kind) {
    case 'note':
      return [spot.id];
    case 'finding':
      return findings[spot.index]?.notes ?? [];
    case 'move': {
      const note = moves[spot.index]?.neededBy ?? null;
      return note === null ? [] : [note];
    }
    default:
      return [];
  }
};

interface Shown {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  /** Null until a page is there. */
  readonly index: LeverIndex | null;
}

/** Where a spot stands: a bar as an index, and a score time. */
const placeOf = (
  { part, report }: Shown,
  spot: LeverSpot,
): { readonly bar: number; readonly quarters: number } => {
  const startOf = (bar: number) => ({ bar, quarters: part.bars[bar]!.onsetQuarters });
  switch (spot.kind) {
    case 'move': {
      const move = report.moves[spot.index]!;
      return { bar: move.barIndex, quarters: changeQuarters(part, move) };
    }
    case 'finding':
      return startOf(report.findings[spot.index]!.barIndex);
    case 'note':
      return startOf(part.notes.get(spot.id)!.bar);
    case 'place':
      return spot;
  }
};

/** What is to be seen of a spot on the pages. */
const wishFor = (shown: Shown, spot: LeverSpot, reach: OnPage['reach']): OnPage | null => {
  const { part, report, index } = shown;
  if (index === null) return null;
  const how = { focus: false, reach } as const;
  if (spot.kind === 'move') {
    const marking = index.markingOfMove[spot.index] ?? null;
    return marking === null ? null : { ids: [marking.id], page: marking.page, ...how };
  }
  const { bar } = placeOf(shown, spot);
  const ids = spot.kind === 'note' ? [spot.id] : notesOf(report, spot);
  return { ids: [...ids, part.bars[bar]!.id], page: index.pageOfBar(bar), ...how };
};

/**
 * What the user looks at, kept in sight as plans change, and what the views are to show of it.
 *
 * @param onLook something is chosen, in a bar as an index
 */
export const useLeverSelection = (shown: Shown, onLook: (bar: number, reach: OnPage['reach']) => void) => {
  const { part, report, index } = shown;
  const [spot, setSpot] = useFollowedValue<LeverSpot | null, readonly [LeverMoves]>(
    null,
    [report.moves],
    followSpot,
  );
  const [wish, setWish] = useState<OnPage | null>(null);
  const [chartWish, setChartWish] = useState<ChartWish | null>(null);
  const look = (chosen: LeverSpot, reach: OnPage['reach']): void => {
    onLook(placeOf(shown, chosen).bar, reach);
    setSpot(chosen);
    setWish(wishFor(shown, chosen, reach));
    // Whoever works in the chart has it where it is wanted.
    if (reach !== 'pane') setChartWish({ quarters: placeOf(shown, chosen).quarters });
  };
  const lookAtMarking = (id: string): void => {
    const marked = index?.markingOfMove.findIndex((marking) => marking?.id === id) ?? -1;
    if (marked !== -1) {
      look({ kind: 'move', index: marked }, 'nearest');
      return;
    }
    setSpot(null);
    const page = index?.markings.find((marking) => marking.id === id)?.page;
    setWish(page === undefined ? null : { ids: [id], page, focus: false, reach: 'nearest' });
  };
  const at = spot?.kind === 'move' || spot?.kind === 'finding' ? spot.index : null;
  const move = spot?.kind === 'move' && at! < report.moves.length ? at : null;
  return {
    /** Indices; null where no such thing is looked at. */
    move,
    finding: spot?.kind === 'finding' ? at : null,
    /** Its id. */
    note: spot?.kind === 'note' ? spot.id : null,
    asking: useMemo(() => notesOf(report, spot), [report, spot]),
    wish,
    chartWish,
    look,
    lookAtMarking,
    leave: useCallback(() => setSpot(null), []),
    /** The bar that is looked at, as an index. */
    bar:
      spot === null || (spot.kind === 'move' && move === null)
        ? null
        : placeOf({ part, report, index }, spot).bar,
  };
};

export type LeverLooking = ReturnType<typeof useLeverSelection>;

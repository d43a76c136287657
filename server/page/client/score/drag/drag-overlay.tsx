import { STRINGS } from '../../../strings/strings.ts';
import { useTrouble } from '../../decisions/history/tried-out.ts';
import type { MarkingDrag, MarkingMoves } from './marking-drag.ts';
import { stretchOnPage } from './page-times.ts';

/** Where a marking may go on a page, and where it would stand. */
export const DragOverlay = ({
  page,
  drag,
  moves,
}: {
  /** From 1. */
  readonly page: number;
  readonly drag: MarkingDrag;
  readonly moves: MarkingMoves;
}) => {
  const { marking, allowed, to, wanted } = drag;
  const lines = drag.linesOf(page);
  const [target] = stretchOnPage(lines, to.quarters, to.quarters);
  const trouble = useTrouble(target === undefined ? null : to, (onTold) => moves.tryAt(marking, to, onTold));
  return (
    <div class="page-drag">
      {stretchOnPage(lines, allowed[0]!.quarters, allowed.at(-1)!.quarters).map(({ line, left, right }) => (
        <div
          key={line.top}
          class="allowed"
          style={{ left, top: line.top, width: Math.max(2, right - left), height: line.bottom - line.top }}
        />
      ))}
      {target !== undefined && (
        <>
          <div
            class={trouble.length === 0 ? 'target' : 'target stop'}
            style={{ left: target.left, top: target.line.top, height: target.line.bottom - target.line.top }}
          />
          <p role="status" style={{ left: target.left, top: target.line.bottom }}>
            {moves.describe(marking, to, wanted)}
            {trouble.length > 0 && <strong class="stop">{STRINGS.score.trouble(trouble)}</strong>}
          </p>
        </>
      )}
    </div>
  );
};

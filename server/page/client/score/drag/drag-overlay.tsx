import type { MarkingDrag, MarkingMoves } from './marking-drag.ts';
import { stretchOnPage } from './page-times.ts';

/** Where a marking may go, and where it would stand, over the page. */
export const DragOverlay = ({
  drag: { marking, allowed, lines, to, wanted },
  moves,
}: {
  readonly drag: MarkingDrag;
  readonly moves: MarkingMoves;
}) => {
  const [target] = stretchOnPage(lines, to.quarters, to.quarters);
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
        <div
          class="target"
          style={{ left: target.left, top: target.line.top, height: target.line.bottom - target.line.top }}
        />
      )}
      {target !== undefined && (
        <p role="status" style={{ left: target.left, top: target.line.bottom }}>
          {moves.describe(marking, to, wanted)}
        </p>
      )}
    </div>
  );
};

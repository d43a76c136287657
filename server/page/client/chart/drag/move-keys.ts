import { ALONG_ROW } from '../../controls/step-keys.ts';
import type { Direction } from '../../planner/moved-moment.ts';

/** What a key asks of the move that has the focus. */
export type MoveKey =
  | { readonly kind: 'go'; readonly to: number }
  | { readonly kind: 'step'; readonly direction: Direction }
  | { readonly kind: 'let-go' };

/**
 * Reads a key: arrows, Home and End go along the moves, arrows with Shift step a move, Delete lets it go.
 *
 * @param at which of the moves has the focus, counted from 0 to `last`
 * @returns null for a key that asks nothing here
 */
export const readMoveKey = (
  { key, shiftKey, ctrlKey, metaKey }: KeyboardEvent,
  at: number,
  last: number,
): MoveKey | null => {
  if (ctrlKey || metaKey) return null;
  const to = shiftKey ? undefined : ALONG_ROW[key]?.(at, last);
  if (to !== undefined) return { kind: 'go', to: Math.min(last, Math.max(0, to)) };
  if (shiftKey && key === 'ArrowLeft') return { kind: 'step', direction: 'earlier' };
  if (shiftKey && key === 'ArrowRight') return { kind: 'step', direction: 'later' };
  return key === 'Delete' || key === 'Backspace' ? { kind: 'let-go' } : null;
};

import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { type MoveKey, readMoveKey } from '../chart/drag/move-keys.ts';
import { useQueue } from '../controls/queue.ts';
import { ALONG_ROW, type StepKeys } from '../controls/step-keys.ts';
import type { MarkingMoves, StepOutcome } from './drag/marking-drag.ts';
import type { OnPage } from './page-sheet.tsx';

const words = STRINGS.score;

const STEPS: StepKeys = {
  ...ALONG_ROW,
  ArrowDown: ALONG_ROW.ArrowRight!,
  ArrowUp: ALONG_ROW.ArrowLeft!,
};

const TOLD: Readonly<Record<StepOutcome, string>> = {
  done: '',
  'at-end': words.noFurther,
  'not-movable': words.notMovable,
};

/**
 * Keys that go along the markings, and that step or free what one tells of.
 *
 * @returns what takes a key on a marking, where it went, and what is to be said of a key that could do nothing
 */
export const useMarkingKeys = ({
  markings,
  moves,
  stale,
  isPlanning,
}: {
  /** In the order in which keys go through them. */
  readonly markings: readonly { readonly id: string; readonly page: number }[];
  /** Null where markings stay. */
  readonly moves: MarkingMoves | null;
  /** The pages are of an earlier plan. */
  readonly stale: boolean;
  /** Another plan is being made: what a key asks waits for it. */
  readonly isPlanning: boolean;
}) => {
  const [stepped, setStepped] = useState<OnPage | null>(null);
  const [told, setTold] = useState('');
  const move = useQueue<{ readonly id: string; readonly asked: MoveKey }>(isPlanning, ({ id, asked }) => {
    if (moves === null || asked.kind === 'go') return;
    const outcome = asked.kind === 'step' ? moves.onStep(id, asked.direction) : moves.onFree(id);
    setTold(outcome === 'not-movable' && stale ? words.stillDrawn : TOLD[outcome]);
  });
  const takeKey = (id: string, event: KeyboardEvent): void => {
    const asked = readMoveKey(event, 0, 0);
    if (moves !== null && asked !== null && asked.kind !== 'go') {
      event.preventDefault();
      move({ id, asked });
      return;
    }
    const step = STEPS[event.key];
    if (step === undefined) return;
    event.preventDefault();
    setTold('');
    const from = markings.findIndex((each) => each.id === id);
    const next = markings[step(from, markings.length - 1)];
    if (next !== undefined) setStepped({ ids: [next.id], page: next.page, focus: true, reach: 'window' });
  };
  return { stepped, forget: () => setStepped(null), takeKey, told, tell: setTold };
};

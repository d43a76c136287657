import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { STRINGS } from '../../../strings/strings.ts';
import { GoTo } from '../../controls/go-to.tsx';
import { StepButton } from '../../controls/step-button.tsx';
import type { Solved, Trouble } from '../troubles.ts';
import type { DecisionAct, DecisionHistory } from './decision-history.ts';

const words = STRINGS.decisions;

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLInputElement && target.type !== 'checkbox';

/** Ctrl or Cmd with Z takes back; with Shift+Z, or Ctrl+Y, it is done again. */
const actOf = (event: KeyboardEvent): 'undo' | 'redo' | null => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return null;
  const key = event.key.toLowerCase();
  if (key === 'z') return event.shiftKey ? 'redo' : 'undo';
  return key === 'y' ? 'redo' : null;
};

const useKeys = (act: (act: DecisionAct) => void): void =>
  useEffect(() => {
    const take = (event: KeyboardEvent): void => {
      const kind = actOf(event);
      if (kind === null || isTyping(event.target)) return;
      event.preventDefault();
      act({ kind });
    };
    addEventListener('keydown', take);
    return () => removeEventListener('keydown', take);
  }, [act]);

export interface HistoryBarProps {
  readonly history: DecisionHistory;
  readonly troubles: readonly Trouble[];
  readonly solved: Solved | null;
  readonly kept: boolean;
  /** How far the pages are. */
  readonly progress: string;
  readonly act: (act: DecisionAct) => void;
  /** Shows or hides what a narrow screen has folded away. */
  readonly unfold: ComponentChildren;
  /** What else stands beside the buttons. */
  readonly children: ComponentChildren;
}

/** More than these are found among the findings. */
const MOST_TOLD = 2;

/** What was done last, in words, what can be played since, what of it could not be granted, and how far the pages are. */
const Telling = ({
  history: { latest },
  troubles,
  solved,
  kept,
  progress,
}: Pick<HistoryBarProps, 'history' | 'troubles' | 'solved' | 'kept' | 'progress'>) => (
  <div class="telling">
    <p role="status" class="announced">
      {/* A new element each time: the same words are told again. */}
      {latest !== null && <span key={latest.count}>{words.announce[latest.act](latest.name)}</span>}
      {solved !== null && <span> {words.solved(solved, 'now')}</span>}
      {troubles.slice(0, MOST_TOLD).map(({ kind, bar, sentence }) => (
        <strong key={`${bar} ${sentence}`} class="stop">
          {' '}
          {words.trouble[kind](bar, sentence)}
        </strong>
      ))}
      {troubles.length > MOST_TOLD && (
        <strong class="stop"> {words.moreTrouble(troubles.length - MOST_TOLD)}</strong>
      )}
      {!kept && <span> {words.notKept}</span>}
    </p>
    <p class="progress" role="status">
      {progress}
    </p>
  </div>
);

/** Taking back and doing again, and what was done last in words. */
export const HistoryBar = ({ act, unfold, children, ...told }: HistoryBarProps) => {
  useKeys(act);
  const { past, future } = told.history;
  const step = (kind: 'undo' | 'redo', name: string | undefined) => (
    <StepButton
      atEnd={name === undefined}
      {...(name === undefined ? {} : { title: name })}
      label={name === undefined ? words[kind] : `${words[kind]}: ${name}`}
      onClick={() => act({ kind })}
    >
      {words[kind]}
    </StepButton>
  );
  return (
    <>
      <div class="history">
        <div class="steps">
          {step('undo', past.at(-1)?.name)}
          {step('redo', future[0]?.name)}
          <GoTo />
          {unfold}
        </div>
        <div class="which foldable">{children}</div>
      </div>
      <Telling {...told} />
    </>
  );
};

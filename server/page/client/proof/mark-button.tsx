import type { ComponentType } from 'preact';
import { useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { Choices } from '../options/choices.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { MarkedAttemptProps } from './marked-attempt.tsx';

interface MarkButtonProps {
  readonly file: ScoreFile;
  readonly choices: Choices;
  readonly small?: boolean;
}

/** Shows what a pupil has written into the file, with a sign at each: its code is fetched when it is first asked for. */
export const MarkButton = ({ small = false, ...props }: MarkButtonProps) => {
  const [view, setView] = useState<{ readonly View: ComponentType<MarkedAttemptProps> } | null>(null);
  const [failed, setFailed] = useState(false);
  const open = async (): Promise<void> => {
    try {
      const { MarkedAttempt } = await import('./marked-attempt.tsx');
      setView({ View: MarkedAttempt });
    } catch {
      setFailed(true);
    }
  };
  return (
    <>
      <button type="button" class={small ? 'small' : 'mark'} onClick={() => void open()}>
        {STRINGS.proof.mark}
      </button>
      {failed && <p role="alert">{STRINGS.viewFailed}</p>}
      {view !== null && <view.View {...props} onClose={() => setView(null)} />}
    </>
  );
};

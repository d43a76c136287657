import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings.ts';
import type { ListenPanelProps } from './listen-panel.tsx';

const words = STRINGS.listen;

type Panel = typeof import('./listen-panel.tsx').ListenPanel;

/** How far the player is: its code is fetched when it is first asked for. */
type Stage =
  | { readonly kind: 'closed' }
  | { readonly kind: 'fetching' }
  | { readonly kind: 'failed' }
  | { readonly kind: 'open'; readonly Panel: Panel };

/** Hear the part and watch the pedals. */
export const ListenSection = (props: Omit<ListenPanelProps, 'onClose'>) => {
  const [stage, setStage] = useState<Stage>({ kind: 'closed' });
  const opener = useRef<HTMLButtonElement>(null);
  const section = useRef<HTMLElement>(null);
  const wasOpen = useRef(false);
  const open = async (): Promise<void> => {
    setStage({ kind: 'fetching' });
    try {
      const { ListenPanel } = await import('./listen-panel.tsx');
      setStage({ kind: 'open', Panel: ListenPanel });
    } catch {
      setStage({ kind: 'failed' });
    }
  };
  // The button that had the focus is gone: its successor takes it.
  useEffect(() => {
    const isOpen = stage.kind === 'open';
    if (isOpen) section.current?.querySelector<HTMLElement>('button.main')?.focus({ preventScroll: true });
    else if (wasOpen.current) opener.current?.focus();
    wasOpen.current = isOpen;
  }, [stage.kind]);
  return (
    <section ref={section} class={stage.kind === 'open' ? 'listen open' : 'listen'}>
      <h2>{words.heading}</h2>
      {stage.kind === 'open' ? (
        <stage.Panel {...props} onClose={() => setStage({ kind: 'closed' })} />
      ) : (
        <button ref={opener} type="button" disabled={stage.kind === 'fetching'} onClick={() => void open()}>
          {words.open}
        </button>
      )}
      {stage.kind === 'failed' && <p role="alert">{words.failed}</p>}
    </section>
  );
};

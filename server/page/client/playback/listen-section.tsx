import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings.ts';
import { scrollBehaviour } from '../controls/scrolling.ts';

const words = STRINGS.listen;

/** How far the player is: its code is fetched when it is first asked for. */
type Stage<P> =
  | { readonly kind: 'closed' }
  | { readonly kind: 'fetching' }
  | { readonly kind: 'failed' }
  | { readonly kind: 'open'; readonly Panel: ComponentType<P & Closing> };

interface Closing {
  readonly onClose: () => void;
}

export interface ListenSectionProps<P> {
  /** What the button that opens it says. */
  readonly label: string;
  readonly load: () => Promise<ComponentType<P & Closing>>;
  /** Of the player that is loaded. */
  readonly player: P;
}

/** Where the player stands below the score, at the foot of the window, the score comes into sight above it. */
const showScore = (section: HTMLElement | null): void => {
  if (section === null || getComputedStyle(section).position !== 'fixed') return;
  section.closest('.workspace')?.querySelector('.pages')?.scrollIntoView({ behavior: scrollBehaviour() });
};

/** Hear the part and watch the harp. */
export const ListenSection = <P extends object>({ label, load, player }: ListenSectionProps<P>) => {
  const [stage, setStage] = useState<Stage<P>>({ kind: 'closed' });
  const opener = useRef<HTMLButtonElement>(null);
  const section = useRef<HTMLElement>(null);
  const wasOpen = useRef(false);
  const open = async (): Promise<void> => {
    setStage({ kind: 'fetching' });
    try {
      const Panel = await load();
      setStage({ kind: 'open', Panel });
    } catch {
      setStage({ kind: 'failed' });
    }
  };
  // The button that had the focus is gone: its successor takes it.
  useEffect(() => {
    const isOpen = stage.kind === 'open';
    if (isOpen) {
      section.current?.querySelector<HTMLElement>('button.main')?.focus({ preventScroll: true });
      showScore(section.current);
    } else if (wasOpen.current) opener.current?.focus();
    wasOpen.current = isOpen;
  }, [stage.kind]);
  return (
    <section ref={section} class={stage.kind === 'open' ? 'listen open' : 'listen'}>
      <h2>{words.heading}</h2>
      {stage.kind === 'open' ? (
        <stage.Panel {...player} onClose={() => setStage({ kind: 'closed' })} />
      ) : (
        <button ref={opener} type="button" disabled={stage.kind === 'fetching'} onClick={() => void open()}>
          {label}
        </button>
      )}
      {stage.kind === 'failed' && <p role="alert">{words.failed}</p>}
    </section>
  );
};

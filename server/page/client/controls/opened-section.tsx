import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { scrollBehaviour } from './scrolling.ts';

/** How far the view is: its code is fetched when it is first asked for. */
type Stage<P> =
  | { readonly kind: 'closed' | 'fetching' | 'failed' }
  | { readonly kind: 'open'; readonly View: ComponentType<P & Closing> };

interface Closing {
  readonly onClose: () => void;
}

export interface OpenedSectionProps<P> {
  /** The class of the section. */
  readonly name: string;
  readonly heading: string;
  /** What the button that opens it says. */
  readonly label: string;
  readonly load: () => Promise<ComponentType<P & Closing>>;
  /** Of the view that is loaded. */
  readonly view: P;
}

/** Where the player stands below the score, at the foot of the window, the score comes into sight above it. */
const showScore = (section: HTMLElement): void => {
  if (getComputedStyle(section).position !== 'fixed') return;
  section.closest('.workspace')?.querySelector('.pages')?.scrollIntoView({ behavior: scrollBehaviour() });
};

/** A section whose view is opened, and loaded, on request. */
export const OpenedSection = <P extends object>({
  name,
  heading,
  label,
  load,
  view,
}: OpenedSectionProps<P>) => {
  const [stage, setStage] = useState<Stage<P>>({ kind: 'closed' });
  const opener = useRef<HTMLButtonElement>(null);
  const section = useRef<HTMLElement>(null);
  const wasOpen = useRef(false);
  const open = async (): Promise<void> => {
    setStage({ kind: 'fetching' });
    try {
      const View = await load();
      setStage({ kind: 'open', View });
    } catch {
      setStage({ kind: 'failed' });
    }
  };
  // The button that had the focus is gone: its successor takes it, or the heading.
  useEffect(() => {
    const isOpen = stage.kind === 'open';
    const within = section.current;
    if (isOpen && within !== null) {
      (within.querySelector<HTMLElement>('button.main') ?? within.querySelector('h2'))?.focus({
        preventScroll: true,
      });
      showScore(within);
    } else if (wasOpen.current) opener.current?.focus();
    wasOpen.current = isOpen;
  }, [stage.kind]);
  return (
    <section ref={section} class={stage.kind === 'open' ? `${name} open` : name}>
      <h2 tabIndex={-1}>{heading}</h2>
      {stage.kind === 'open' ? (
        <stage.View {...view} onClose={() => setStage({ kind: 'closed' })} />
      ) : (
        <button ref={opener} type="button" disabled={stage.kind === 'fetching'} onClick={() => void open()}>
          {label}
        </button>
      )}
      {stage.kind === 'failed' && <p role="alert">{STRINGS.viewFailed}</p>}
    </section>
  );
};

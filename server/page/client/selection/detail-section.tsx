import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import { MusicWords } from '../controls/music-words.tsx';

const words = STRINGS.detail;

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLInputElement || target instanceof HTMLSelectElement;

/** Escape ends the looking, unless somebody types or something else was given up with it. */
const useEscape = (leave: (() => void) | null): void =>
  useEffect(() => {
    if (leave === null) return;
    const take = (event: KeyboardEvent): void => {
      if (event.key === 'Escape' && !event.defaultPrevented && !isTyping(event.target)) leave();
    };
    addEventListener('keydown', take);
    return () => removeEventListener('keydown', take);
  }, [leave]);

/** What is told of the thing that is looked at. On a narrow screen it stands at the window's foot until it is left. */
export const DetailSection = ({
  heading,
  onLeave,
  children,
}: {
  readonly heading: string;
  /** The user has looked enough; null while nothing is looked at. */
  readonly onLeave: (() => void) | null;
  readonly children: ComponentChildren;
}) => {
  useEscape(onLeave);
  return (
    <section class={onLeave === null ? 'detail' : 'detail filled'}>
      <h2>
        <MusicWords>{heading}</MusicWords>
      </h2>
      {onLeave !== null && (
        <button
          type="button"
          class="small leave"
          aria-label={words.leave}
          title={words.leave}
          onClick={onLeave}
        >
          ×
        </button>
      )}
      {children}
    </section>
  );
};

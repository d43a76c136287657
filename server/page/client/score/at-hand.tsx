import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';

/** Something on the pages, and where it was asked what can be done with it: px of the window. */
export interface AskedAt {
  readonly kind: 'marking' | 'note';
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/** The element that has the focus, in whatever tree it stands. */
const focused = (): Element | null => {
  const { activeElement } = document;
  return activeElement?.shadowRoot?.activeElement ?? activeElement;
};

/** Px that are left free between it and the edge of the window. */
const EDGE = 8;

/** What can be done with something on the page, beside it; gone with Escape, with a click elsewhere and once it is done. */
export const AtHand = ({
  x,
  y,
  children,
  onClose,
}: Pick<AskedAt, 'x' | 'y'> & { readonly children: ComponentChildren; readonly onClose: () => void }) => {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const { style, offsetWidth, offsetHeight } = box.current!;
    style.left = `${Math.max(EDGE, Math.min(x, innerWidth - offsetWidth - EDGE))}px`;
    style.top = `${Math.max(EDGE, Math.min(y, innerHeight - offsetHeight - EDGE))}px`;
  }, [x, y]);
  useEffect(() => {
    const before = focused();
    box.current!.querySelector<HTMLElement>('button')?.focus({ preventScroll: true });
    const leave = (event: Event): void => {
      if (!event.composedPath().includes(box.current!)) onClose();
    };
    const key = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      onClose();
      if (before instanceof SVGElement || before instanceof HTMLElement)
        before.focus({ preventScroll: true });
    };
    const done = ({ target }: Event): void => {
      if (target instanceof Element && target.closest('button') !== null) onClose();
    };
    box.current!.addEventListener('click', done);
    addEventListener('pointerdown', leave);
    addEventListener('keydown', key, { capture: true });
    return () => {
      removeEventListener('pointerdown', leave);
      removeEventListener('keydown', key, { capture: true });
    };
  }, []);
  return (
    <div ref={box} class="at-hand" role="dialog" aria-label={STRINGS.score.atHand}>
      {children}
    </div>
  );
};

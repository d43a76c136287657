import { useEffect } from 'preact/hooks';

/** What a finger takes hold of in a chart. */
export const HELD_IN_CHART = '.point, .strip';

/**
 * A finger on what can be dragged drags it: the pane must not scroll away under it. The styles alone do not
 * see to that, since browsers ask the scrolling pane, which is to scroll by a finger on anything else.
 */
export const useHeldTouch = (
  pane: { readonly current: HTMLElement | null },
  /** A selector. */
  held: string,
): void => {
  useEffect(() => {
    const element = pane.current!;
    let isHeld = false;
    const begin = (event: TouchEvent): void => {
      // Pages are drawn in trees of their own.
      const [target] = event.composedPath();
      isHeld = target instanceof Element && target.closest(held) !== null;
    };
    const hold = (event: TouchEvent): void => {
      if (isHeld && event.cancelable) event.preventDefault();
    };
    element.addEventListener('touchstart', begin, { passive: true });
    element.addEventListener('touchmove', hold, { passive: false });
    return () => {
      element.removeEventListener('touchstart', begin);
      element.removeEventListener('touchmove', hold);
    };
  }, []);
};

import { useEffect } from 'preact/hooks';

/** What a finger takes hold of in the chart. */
const HELD = '.point, .strip';

/**
 * A finger on a move or on the bar numbers drags them: the pane must not scroll away under it. The styles alone do not
 * see to that, since browsers ask the scrolling pane, which is to scroll by a finger on anything else.
 */
export const useHeldTouch = (pane: { readonly current: HTMLElement | null }): void => {
  useEffect(() => {
    const element = pane.current!;
    let isHeld = false;
    const begin = ({ target }: TouchEvent): void => {
      isHeld = target instanceof Element && target.closest(HELD) !== null;
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

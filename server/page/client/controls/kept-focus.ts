import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';

/** So long a click may take to have its effect; what vanishes later did so for another reason. */
const LASTS_MS = 2000;

/**
 * What has the focus may vanish by its own doing, such as a decision that is taken back: the section's heading takes
 * it over, so that a reader is not sent to the start of the page.
 *
 * @returns the section's ref; its heading must be able to take the focus
 */
export const useKeptFocus = () => {
  const section = useRef<HTMLElement>(null);
  const acted = useRef(Number.NEGATIVE_INFINITY);
  useEffect(() => {
    section.current!.addEventListener('click', () => {
      acted.current = performance.now();
    });
  }, []);
  useLayoutEffect(() => {
    if (performance.now() - acted.current > LASTS_MS || document.activeElement !== document.body) return;
    acted.current = Number.NEGATIVE_INFINITY;
    section.current!.querySelector('h2')?.focus({ preventScroll: true });
  });
  return section;
};

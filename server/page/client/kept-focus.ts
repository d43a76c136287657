import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';

/**
 * What has the focus may vanish by its own doing, such as a decision that is taken back: the section's heading takes
 * it over, so that a reader is not sent to the start of the page.
 *
 * @returns the section's ref; its heading must be able to take the focus
 */
export const useKeptFocus = () => {
  const section = useRef<HTMLElement>(null);
  const acted = useRef(false);
  useEffect(() => {
    section.current!.addEventListener('click', () => {
      acted.current = true;
    });
  }, []);
  useLayoutEffect(() => {
    if (!acted.current || document.activeElement !== document.body) return;
    acted.current = false;
    section.current!.querySelector('h2')?.focus({ preventScroll: true });
  });
  return section;
};

import { useEffect } from 'preact/hooks';

const SIGNS_OF_USE = ['pointermove', 'pointerdown', 'keydown', 'dragenter'] as const;

/** Does something once the page is used, while the user still looks for a file, but not for someone who only reads it. */
export const useFirstUse = (prepare: () => void): void =>
  useEffect(() => {
    const begin = (): void => {
      prepare();
      forget();
    };
    const forget = (): void => {
      for (const sign of SIGNS_OF_USE) removeEventListener(sign, begin);
    };
    for (const sign of SIGNS_OF_USE) addEventListener(sign, begin, { passive: true });
    return forget;
  }, []);

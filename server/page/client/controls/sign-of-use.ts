import { useEffect } from 'preact/hooks';

const SIGNS_OF_USE = ['pointermove', 'pointerdown', 'keydown', 'dragenter'] as const;

/** Calls back once, as soon as somebody begins to use the page: who only reads it loads nothing more. */
export const useSignOfUse = (begin: () => void): void =>
  useEffect(() => {
    const take = (): void => {
      forget();
      begin();
    };
    const forget = (): void => {
      for (const sign of SIGNS_OF_USE) removeEventListener(sign, take);
    };
    for (const sign of SIGNS_OF_USE) addEventListener(sign, take, { passive: true });
    return forget;
  }, []);

import { useEffect, useState } from 'preact/hooks';

/** So long something has to be held in a place before it is tried what comes of it. */
const HELD_MS = 120;

/**
 * What could not be played if something that is dragged were let go where it is, in sentences; none until that is known.
 *
 * @param place another object for each place; null while nothing is dragged
 * @param tryOut tells what could not be played
 */
export const useTrouble = (
  place: object | null,
  tryOut: (onTold: (trouble: readonly string[]) => void) => void,
): readonly string[] => {
  const [trouble, setTrouble] = useState<readonly string[]>([]);
  useEffect(() => {
    setTrouble([]);
    if (place === null) return;
    let isWanted = true;
    const timer = setTimeout(
      () =>
        tryOut((told) => {
          if (isWanted) setTrouble(told);
        }),
      HELD_MS,
    );
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [place]);
  return trouble;
};

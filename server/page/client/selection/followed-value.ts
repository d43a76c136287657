import { useCallback, useRef, useState } from 'preact/hooks';

/**
 * A value of the user's choice that names something by its place in what is shown, kept right as that changes: found again
 * while the page is drawn, so that no picture has the value of one and the thing of another.
 *
 * @param follow finds the value again; what is shown is compared by identity of each of its members
 */
export const useFollowedValue = <T, S extends readonly unknown[]>(
  initial: T,
  shown: S,
  follow: (value: T, before: S, now: S) => T,
): readonly [T, (value: T) => void] => {
  const held = useRef({ value: initial, shown });
  const [, refresh] = useState(0);
  const { value, shown: before } = held.current;
  if (shown.some((each, i) => each !== before[i]))
    held.current = { value: follow(value, before, shown), shown };
  const choose = useCallback((chosen: T): void => {
    held.current = { ...held.current, value: chosen };
    refresh((count) => count + 1);
  }, []);
  return [held.current.value, choose];
};

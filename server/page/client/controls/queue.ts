import { useEffect, useRef, useState } from 'preact/hooks';

/**
 * Takes what comes one after the other: while something is waited for it is kept, and taken when that is there.
 *
 * @param isWaiting whether what was taken last is still to have its effect
 * @param take as it is by then
 * @returns what hands something over
 */
export const useQueue = <Each>(isWaiting: boolean, take: (each: Each) => void): ((each: Each) => void) => {
  const kept = useRef<Each[]>([]);
  const latest = useRef(take);
  latest.current = take;
  const [, look] = useState(0);
  useEffect(() => {
    if (isWaiting || kept.current.length === 0) return;
    latest.current(kept.current.shift()!);
    look((times) => times + 1);
  });
  return (each) => {
    kept.current.push(each);
    look((times) => times + 1);
  };
};

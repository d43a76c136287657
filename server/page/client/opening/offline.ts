import { useEffect, useState } from 'preact/hooks';

/**
 * Lets the browser keep the page's files (see `service-worker.ts`), so that it works while the service cannot be reached.
 *
 * @returns whether they are kept
 */
const keepPageOffline = async (): Promise<boolean> => {
  // Browsers have it over a safe connection alone.
  if (!('serviceWorker' in navigator)) return false;
  try {
    await navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
    await navigator.serviceWorker.ready;
    return true;
  } catch {
    // Storage may be shut off: the page then needs the service, as any page does.
    return false;
  }
};

/**
 * Has the page kept as soon as somebody uses it, with no piece open either: whoever just looks at the first view loads no
 * more than that.
 *
 * @param isUsed and what the user waits for is there
 * @returns whether it is kept
 */
export const useKeptOffline = (isUsed: boolean): boolean => {
  const [isKept, setKept] = useState(false);
  useEffect(() => {
    if (isUsed) void keepPageOffline().then(setKept);
  }, [isUsed]);
  return isKept;
};

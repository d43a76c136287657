/**
 * Lets the browser keep the page's files (see `service-worker.ts`), so that it works while the service cannot be reached.
 * Only once a piece was opened: whoever just looks at the first view loads no more than that.
 */
export const keepPageOffline = async (): Promise<void> => {
  // Browsers have it over a safe connection alone.
  if (!('serviceWorker' in navigator)) return;
  try {
    await navigator.serviceWorker.register('service-worker.js', { updateViaCache: 'none' });
  } catch {
    // Storage may be shut off: the page then needs the service, as any page does.
  }
};

/** Stops work when the first of several signals fires, or after a time. It is to be released when the work is over. */
export interface JoinedStop {
  readonly signal: AbortSignal;
  /** Whether it stopped since the time was up. */
  readonly isLate: () => boolean;
  /** Forgets the signals and the clock, which may outlive the work by far. */
  readonly release: () => void;
}

/**
 * Of `AbortSignal.any` and `AbortSignal.timeout` something is left behind by each piece of work until the whole heap is
 * collected; this leaves nothing once it is released.
 *
 * @param limitMs after how many milliseconds the time is up; null where there is no limit
 */
export const joinStops = (signals: readonly AbortSignal[], limitMs: number | null): JoinedStop => {
  const joined = new AbortController();
  const late = new DOMException('the time is up', 'TimeoutError');
  const stops = signals.map((from) => ({ from, stop: () => joined.abort(from.reason) }));
  for (const { from, stop } of stops) {
    if (from.aborted) stop();
    else from.addEventListener('abort', stop, { once: true });
  }
  const clock = limitMs === null ? undefined : setTimeout(() => joined.abort(late), limitMs).unref();
  return {
    signal: joined.signal,
    isLate: () => joined.signal.reason === late,
    release: () => {
      clearTimeout(clock);
      for (const { from, stop } of stops) from.removeEventListener('abort', stop);
    },
  };
};

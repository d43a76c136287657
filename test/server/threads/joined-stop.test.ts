import { getEventListeners } from 'node:events';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { joinStops } from '../../../server/threads/joined-stop.ts';

describe('work that several may stop', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('stops with the first of them, for its reason', () => {
    const [client, service] = [new AbortController(), new AbortController()];
    const joined = joinStops([client.signal, service.signal], 1000);
    service.abort('closing');
    client.abort('gone');
    expect(joined.signal.reason).toBe('closing');
    expect(joined.isLate()).toBe(false);
  });

  it('does not begin where one has stopped it already', () => {
    expect(joinStops([AbortSignal.abort('gone')], null).signal.reason).toBe('gone');
  });

  it('stops when its time is up, and is late then', () => {
    const joined = joinStops([], 1000);
    vi.advanceTimersByTime(999);
    expect(joined.signal.aborted).toBe(false);
    vi.advanceTimersByTime(1);
    expect(joined.signal.aborted).toBe(true);
    expect(joined.isLate()).toBe(true);
  });

  it('is not late where it was stopped before its time was up', () => {
    const client = new AbortController();
    const joined = joinStops([client.signal], 1000);
    client.abort();
    vi.advanceTimersByTime(2000);
    expect(joined.isLate()).toBe(false);
  });

  it('leaves nothing with those that outlive it once it is released', () => {
    const service = new AbortController();
    const joined = joinStops([service.signal], 1000);
    expect(getEventListeners(service.signal, 'abort')).toHaveLength(1);
    joined.release();
    expect(getEventListeners(service.signal, 'abort')).toHaveLength(0);
    vi.advanceTimersByTime(2000);
    expect(joined.signal.aborted).toBe(false);
  });
});

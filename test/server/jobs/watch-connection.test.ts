import { EventEmitter } from 'node:events';
import type { Redis } from 'ioredis';
import { describe, expect, it } from 'vitest';
import { watchConnection } from '../../../server/jobs/watch-connection.ts';

describe('a connection to Redis', () => {
  it('is told of once when it is lost, however often it is tried again, and once when it is back', () => {
    const connection = new EventEmitter();
    const told: string[] = [];
    watchConnection(connection as unknown as Pick<Redis, 'on'>, (state) => told.push(state));
    for (const event of ['ready', 'close', 'reconnecting', 'reconnecting', 'ready', 'close'])
      connection.emit(event);
    expect(told).toEqual(['lost', 'restored']);
  });
});

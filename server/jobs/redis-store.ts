import type { Redis } from 'ioredis';
import { fail } from '../service-problem.ts';
import type { BlobStore } from './job.ts';

const PREFIX = 'tringle:blob:';

/**
 * Keeps bytes in Redis, where every machine finds them.
 *
 * @param keepSeconds how long each is kept
 */
export const createRedisStore = (redis: Redis, keepSeconds: number): BlobStore => ({
  put: async (key, bytes) => {
    try {
      await redis.set(`${PREFIX}${key}`, Buffer.from(bytes), 'EX', keepSeconds);
      return { ok: true, value: null };
    } catch (error) {
      // Redis begins its word for a full memory so (redis.io, “maxmemory”; from memory).
      if (error instanceof Error && error.message.startsWith('OOM')) return fail({ code: 'storage-full' });
      throw error;
    }
  },
  get: (key) => redis.getBuffer(`${PREFIX}${key}`),
  remove: async (keys) => {
    if (keys.length > 0) await redis.del(keys.map((key) => `${PREFIX}${key}`));
  },
});

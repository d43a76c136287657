import { open } from 'node:fs/promises';

/** Bytes that are asked for at a time. */
const CHUNK_BYTES = 1_000_000;

/** The bytes of a file, or how many it has at least, where these are more than are wanted. */
export type BoundedRead =
  | { readonly kind: 'read'; readonly bytes: Buffer }
  | { readonly kind: 'too-large'; readonly foundBytes: number };

/**
 * Reads a file, and no more of it than is wanted: a device may never end.
 *
 * @throws the system's error where it cannot be read
 */
export const readBounded = async (path: string, limitBytes: number): Promise<BoundedRead> => {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    if (size > limitBytes) return { kind: 'too-large', foundBytes: size };
    const chunks: Buffer[] = [];
    let total = 0;
    for (;;) {
      const { bytesRead, buffer } = await file.read(Buffer.allocUnsafe(CHUNK_BYTES), 0, CHUNK_BYTES);
      if (bytesRead === 0) return { kind: 'read', bytes: Buffer.concat(chunks, total) };
      chunks.push(buffer.subarray(0, bytesRead));
      total += bytesRead;
      if (total > limitBytes) return { kind: 'too-large', foundBytes: total };
    }
  } finally {
    await file.close();
  }
};

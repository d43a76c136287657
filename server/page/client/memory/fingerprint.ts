/** Of bytes that were named already: a long score takes some 40 ms. */
const known = new WeakMap<Uint8Array, string>();

/**
 * A short name for some bytes, so that the same file is known again: two FNV-1a hashes (Fowler, Noll, Vo) of 32 bits
 * and the length. The browser's own digests are missing where the page is not served over a safe connection.
 */
export const fingerprintOf = (bytes: Uint8Array): string => {
  const name = known.get(bytes) ?? hash(bytes);
  known.set(bytes, name);
  return name;
};

const hash = (bytes: Uint8Array): string => {
  let a = 0x811c9dc5;
  let b = 0x01000193;
  for (const byte of bytes) {
    a = Math.imul(a ^ byte, 0x01000193);
    b = Math.imul(b ^ byte, 0x85ebca6b) + 0x9e3779b9;
  }
  return [a >>> 0, b >>> 0, bytes.length].map((each) => each.toString(36)).join('-');
};

/** In characters. */
const LONGEST_NAME = 80;

/**
 * A file name made from a title: what a path, a header or a file system gives a meaning to becomes a space.
 *
 * @param title may be empty or hostile
 * @param otherwise the name where nothing of the title is left
 * @param longest how many characters are kept
 */
export const fileNameFrom = (title: string, otherwise: string, longest = LONGEST_NAME): string => {
  const safe = title.normalize('NFC').replace(/[\p{C}\p{Zl}\p{Zp}/\\:*?"<>|%]/gu, ' ');
  const name = [...safe.replace(/\s+/g, ' ').trim()].slice(0, longest).join('');
  const plain = name.replace(/^[. ]+|[. ]+$/g, '');
  return plain === '' ? otherwise : plain;
};

/** Characters that `encodeURIComponent` leaves, but that RFC 8187, 3.2.1 has encoded. */
const encodeRest = (character: string): string => `%${character.charCodeAt(0).toString(16).toUpperCase()}`;

/**
 * The `Content-Disposition` that shows a file in place and names it for saving: in ASCII for old clients, in full after
 * RFC 8187 (RFC 6266, appendix D).
 *
 * @param name a name of `fileNameFrom` with its extension
 */
export const dispositionOf = (name: string): string => {
  const ascii = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^\x20-\x7e]/g, '_')
    // A letter may come apart into signs that its name was rid of.
    .replace(/["/\\:*?<>|%]/g, '_')
    .replace(/^\.+/, '_');
  const full = encodeURIComponent(name).replace(/['()*]/g, encodeRest);
  return `inline; filename="${ascii}"; filename*=UTF-8''${full}`;
};

/** What the address of the page names after its `#`. */
export interface Address {
  /** By which the browser knows a piece again; empty where none is open. */
  readonly key: string;
  /** The bar that is looked at, as an index; null for the beginning. */
  readonly bar: number | null;
}

/** As it stands in the address bar: `#key`, or `#key/bar`. */
export const writeAddress = ({ key, bar }: Address): string =>
  `#${encodeURIComponent(key)}${bar === null ? '' : `/${bar}`}`;

/** Reads what `writeAddress` wrote. What a person has changed in it names another piece, or the beginning. */
export const readAddress = (hash: string): Address => {
  const [key = '', bar = ''] = hash.replace(/^#/, '').split('/');
  return { key: decodeKey(key), bar: /^\d{1,6}$/.test(bar) ? Number(bar) : null };
};

const decodeKey = (written: string): string => {
  try {
    return decodeURIComponent(written);
  } catch {
    return written;
  }
};

/** Has the user type a key; null where none is given. `wrong`: the one typed before was not accepted. */
export type KeyAsker = (wrong: boolean) => Promise<string | null>;

let key: string | null = null;
let refused = false;
let asking: Promise<boolean> | null = null;
let asker: KeyAsker = async () => null;

/** What a request bears (RFC 6750, 2.1) once the user has typed a key; it is held until the page is left. */
export const keyHeaders = (): Readonly<Record<string, string>> =>
  key === null ? {} : { Authorization: `Bearer ${key}` };

export const askForKeysBy = (next: KeyAsker): void => {
  asker = next;
};

/** The user asks for something once more: then the key may be asked for once more too. */
export const askForKeyAgain = (): void => {
  refused = false;
};

/**
 * Gets a key from the user for a request that was turned away. Requests that are turned away together wait for one
 * answer, and a user who gives none is left in peace.
 *
 * @param borne the headers that were not enough
 * @returns whether it is worth asking the service again
 */
export const findKey = (borne: Readonly<Record<string, string>>): Promise<boolean> => {
  if (borne.Authorization !== keyHeaders().Authorization) return Promise.resolve(true);
  if (refused) return Promise.resolve(false);
  asking ??= asker(key !== null).then((typed) => {
    asking = null;
    refused = typed === null;
    if (typed !== null) key = typed;
    return typed !== null;
  });
  return asking;
};

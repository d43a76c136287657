import { foldLabel } from './words/labels.ts';

/** The names or ids of parts in a list that a user wrote, which semicolons separate. */
export const readPartNames = (text: string): readonly string[] =>
  text
    .split(';')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** By what one of several can be asked for. */
export interface Called {
  readonly ids: readonly string[];
  readonly names: readonly string[];
}

/**
 * The one that is asked for: by an id, else by a name, else by words that its name alone has in it. Names are compared
 * without regard to case, accents and white space.
 *
 * @returns undefined where none or several are
 */
export const findCalled = <T>(
  all: readonly T[],
  wanted: string,
  calledOf: (each: T) => Called,
): T | undefined => {
  const words = foldLabel(wanted);
  if (words === '') return undefined;
  const those = (fits: (called: Called) => boolean): readonly T[] =>
    all.filter((each) => fits(calledOf(each)));
  const found = [
    those(({ ids }) => ids.includes(wanted)),
    those(({ names }) => names.some((name) => foldLabel(name) === words)),
    those(({ names }) => names.some((name) => foldLabel(name).includes(words))),
  ].find(({ length }) => length > 0);
  return found?.length === 1 ? found[0] : undefined;
};

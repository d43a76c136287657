import type { LookWords } from './look.ts';

type Looks = Readonly<Record<string, { readonly words: LookWords }>>;

/** The looks with what they print, for the documentation: `names: names between the staves; notes: …`. */
export const describeLooks = (looks: Looks): string =>
  Object.entries(looks)
    .map(([name, { words }]) => `${name}: ${words.meaning}`)
    .join('; ');

/** The labels of the looks by their names, for a list to choose from. */
export const labelLooks = <Name extends string>(
  looks: Readonly<Record<Name, { readonly words: LookWords }>>,
): Readonly<Record<Name, string>> => {
  const entries = Object.entries<{ readonly words: LookWords }>(looks);
  return Object.fromEntries(entries.map(([name, { words }]) => [name, words.label])) as Record<Name, string>;
};

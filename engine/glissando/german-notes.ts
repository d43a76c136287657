/** H is B natural; -is raises and -es lowers, with As and Es for A and E. */
const GERMAN: Readonly<Record<string, string>> = {
  h: 'B',
  his: 'B#',
  hes: 'Bb',
  as: 'Ab',
  es: 'Eb',
  ...Object.fromEntries([...'cdefga'].map((letter) => [`${letter}is`, `${letter.toUpperCase()}#`])),
  ...Object.fromEntries([...'cdfg'].map((letter) => [`${letter}es`, `${letter.toUpperCase()}b`])),
};

/** The English name of a note that German alone writes so, or null. */
const germanNote = (name: string): string | null => GERMAN[name.toLowerCase()] ?? null;

/** The English name of a plain letter; among German names B is B flat. */
const plainNote = (name: string): string | null =>
  /^[a-g]$/iu.test(name) ? (name.toUpperCase() === 'B' ? 'Bb' : name.toUpperCase()) : null;

/**
 * A list of notes with at least one German name among them, in English; null for any other.
 *
 * @example germanList(['C', 'Es', 'Ges', 'B']) // ['C', 'Eb', 'Gb', 'Bb']
 */
export const germanList = (names: readonly string[]): readonly string[] | null => {
  if (!names.some((name) => germanNote(name) !== null)) return null;
  const notes = names.map((name) => germanNote(name) ?? plainNote(name));
  return notes.every((note) => note !== null) ? notes : null;
};

/**
 * A German root in English: a name that German alone has, or any letter before “Dur” and “Moll”. “Asus4” is A, and so is “Esus4” E.
 *
 * @example germanRoot('fis-Moll') // { root: 'F#', rest: 'Moll' }
 */
export const germanRoot = (text: string): { readonly root: string; readonly rest: string } | null => {
  const key = /^([a-h](?:is|es|s)?)[\s-]*(dur|moll)$/iu.exec(text);
  const named = key ?? /^(h|[cdefgah]is|[cdfgh]es|[ae]s(?!us))(?![a-z]{2,}$)[\s-]*(.*)$/iu.exec(text);
  if (named === null) return null;
  const [, name = '', rest = ''] = named;
  const root = germanNote(name) ?? (key === null ? null : plainNote(name));
  return root === null ? null : { root, rest };
};

const ID = / xml:id="([^"]*)"/g;
const SOURCE_ID = /\sid\s*=\s*(?:"([^"]*)"|'([^']*)')/g;
const REFERENCE = /#([^\s"#]+)/g;
const MEASURE_OR_ID = /<measure(?=[\s>])| xml:id="([^"]*)"/g;

/**
 * The conversion names every element, at random. Names that nothing refers to are left out; the others are made of the name of
 * their bar, so that a bar is the same text whatever else was converted with it. Linear in the texts.
 *
 * @param mei as converted
 * @param musicXml what it was converted from: names that stand in it stay
 */
export const nameByBars = (mei: string, musicXml: string): string => {
  const given = new Set([...musicXml.matchAll(SOURCE_ID)].map(([, double, single]) => double ?? single!));
  const wanted = new Set([...mei.matchAll(REFERENCE)].map(([, id]) => id!));
  const names = nameWanted(mei, given, wanted);
  const nameOf = (id: string): string | undefined => (given.has(id) ? id : names.get(id));
  return mei
    .replace(ID, (_, id: string) => {
      const name = nameOf(id);
      return name === undefined ? '' : ` xml:id="${name}"`;
    })
    .replace(REFERENCE, (_, id: string) => `#${nameOf(id) ?? id}`);
};

/** New names of what something refers to, by the bars it stands in, which the first name in a bar is the name of. */
const nameWanted = (
  mei: string,
  given: ReadonlySet<string>,
  wanted: ReadonlySet<string>,
): ReadonlyMap<string, string> => {
  const names = new Map<string, string>();
  let bar: string | null = '';
  let count = 0;
  for (const [, id] of mei.matchAll(MEASURE_OR_ID)) {
    if (id === undefined) [bar, count] = [null, 0];
    else bar ??= id;
    if (id === undefined || given.has(id) || !wanted.has(id)) continue;
    count += 1;
    names.set(id, unlike(given, `in-${bar}-${count}`));
  }
  return names;
};

const unlike = (given: ReadonlySet<string>, name: string): string =>
  given.has(name) ? unlike(given, `${name}_`) : name;

const ENTITIES = /&(?:(lt|gt|amp|quot|apos)|#([0-9]{1,7})|#x([0-9a-fA-F]{1,6}));/gu;
const NAMED: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };
const LAST_CODE_POINT = 0x10_ffff;

/** The number of a character that a document gives in one of two ways. */
export const codeOf = (decimal: string | undefined, hexadecimal: string | undefined): number =>
  decimal === undefined ? Number.parseInt(hexadecimal!, 16) : Number(decimal);

/** Text of a document as characters: XML's five entities and numbers, which are all that a parsed document can hold. */
export const decodeEntities = (text: string): string =>
  text.includes('&')
    ? text.replace(ENTITIES, (whole, named?: string, decimal?: string, hexadecimal?: string) => {
        if (named !== undefined) return NAMED[named]!;
        const code = codeOf(decimal, hexadecimal);
        return code > LAST_CODE_POINT ? whole : String.fromCodePoint(code);
      })
    : text;

/** Text as it stands in a document, in an attribute too. */
export const escapeText = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

import { bisector } from 'd3-array';

/** One change to a text: what stands from `start` to `end` becomes `put`; an insertion where both are equal. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly put: string;
}

export const insertAt = (at: number, put: string): Edit => ({ start: at, end: at, put });

export const cut = (span: { readonly start: number; readonly end: number }): Edit => ({ ...span, put: '' });

/**
 * The text with all edits made. Edits may come in any order; insertions at one place keep theirs.
 *
 * An edit that lies within a longer one is dropped with it: what is cut away is not edited. Edits that only partly
 * overlap contradict each other and are a bug.
 *
 * @throws Error for edits that partly overlap
 */
export const applyEdits = (text: string, edits: readonly Edit[]): string =>
  editSlices(text, edits)({ start: 0, end: text.length });

/**
 * Reads stretches of a text with the edits that lie in them made; sorts the edits once for many stretches.
 *
 * @returns a function of the stretch; an edit must lie wholly inside it or outside it
 */
export const editSlices = (
  text: string,
  edits: readonly Edit[],
): ((span: { readonly start: number; readonly end: number }) => string) => {
  const ordered = orderEdits(edits);
  return (span) => {
    const pieces: string[] = [];
    let done = span.start;
    for (let i = firstFrom(ordered, span.start); i < ordered.length; i += 1) {
      const { start, end, put } = ordered[i]!;
      if (start > span.end || (start === span.end && span.end < text.length)) break;
      if (end <= done && start < done) continue;
      if (start < done) throw new Error(`edits overlap at ${start}`);
      pieces.push(text.slice(done, start), put);
      done = end;
    }
    pieces.push(text.slice(done, span.end));
    return pieces.join('');
  };
};

/** In the order of the text, those of one place as they are made. Edits that are in order take no longer than to look at. */
export const orderEdits = (edits: readonly Edit[]): Edit[] =>
  edits.toSorted((a, b) => a.start - b.start || emptyFirst(a, b));

const firstFrom: (ordered: readonly Edit[], at: number) => number = bisector(({ start }: Edit) => start).left;

/** Insertions come before a replacement that starts at the same place; of two replacements the longer one. */
const emptyFirst = (a: Edit, b: Edit): number => {
  const emptyA = a.start === a.end ? 0 : 1;
  const emptyB = b.start === b.end ? 0 : 1;
  return emptyA - emptyB || (emptyA === 1 ? b.end - a.end : 0);
};

/** Sets an attribute of the start tag that begins at `tagStart`: replaced where it stands, else added after the name. */
export const setAttribute = (text: string, tagStart: number, name: string, value: string): Edit => {
  const tagEnd = startTagEnd(text, tagStart);
  const tag = text.slice(tagStart, tagEnd);
  const escaped = value.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
  const present = new RegExp(`\\s${name.replace(':', '\\:')}\\s*=\\s*(?:"[^"]*"|'[^']*')`).exec(tag);
  if (present !== null) {
    const start = tagStart + present.index;
    return { start, end: start + present[0].length, put: ` ${name}="${escaped}"` };
  }
  const nameLength = /^<[^\s/>]+/.exec(tag)![0].length;
  return insertAt(tagStart + nameLength, ` ${name}="${escaped}"`);
};

/** Past the `>` that closes the start tag at `tagStart`; a `>` inside a quoted value does not count. */
const startTagEnd = (text: string, tagStart: number): number => {
  let quote = '';
  for (let i = tagStart; i < text.length; i += 1) {
    const c = text[i]!;
    if (quote !== '') {
      if (c === quote) quote = '';
    } else if (c === '"' || c === "'") quote = c;
    else if (c === '>') return i + 1;
  }
  return text.length;
};

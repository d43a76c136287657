import { createMemory } from '../drawer/drawing-memory.ts';

/** The document that is laid out, in the pieces that lines are made of. */
export interface DocumentOutline {
  /** Everything up to the start tag of the score, and the end tags of what is open there. */
  readonly opening: string;
  readonly closing: string;
  readonly pieces: readonly Piece[];
  readonly measures: readonly MeasurePiece[];
}

/** What stands in the score, in order. */
export type Piece =
  | { readonly kind: 'open' | 'close'; readonly text: string }
  /** Clefs, keys and metres from here on. */
  | { readonly kind: 'definition'; readonly text: string }
  | { readonly kind: 'break' }
  | { readonly kind: 'measure'; readonly measure: MeasurePiece };

export interface MeasurePiece {
  readonly index: number;
  readonly id: string;
  readonly text: string;
  readonly startTag: string;
  readonly beginsMovement: boolean;
  /** Ids of what stands in it. */
  readonly ids: readonly string[];
  readonly links: readonly Link[];
  /** What holds until the next of its kind, and whether it is open at the end. */
  readonly chained: ReadonlyMap<string, boolean>;
  /** The last clef of each staff, by the staff's `n`: what the next measure begins with. */
  readonly clefs: ReadonlyMap<string, string>;
}

/** Something in a measure that belongs to other places too. */
export interface Link {
  /** Ids that it refers to. */
  readonly to: readonly string[];
  /** How many bars on it ends, where that is counted in bars. */
  readonly barsOn: number;
  /** Whether the layout sets it with its first line, and goes by that in the others (found by comparing lines). */
  readonly isSetOnce: boolean;
}

/** What a score may hold beside measures without that lines could not be told apart. */
const CONTAINERS: ReadonlySet<string> = new Set(['section', 'ending']);
const DEFINITIONS: ReadonlySet<string> = new Set(['scoreDef', 'staffDef']);
/** Keys and metres within a layer would have to be followed like clefs; no program writes them. */
const UNFOLLOWED: ReadonlySet<string> = new Set([
  'keySig',
  'meterSig',
  'mensur',
  'proport',
  'staffDef',
  'layerDef',
]);

/** Pedal lines run to the next sign, hyphens and underlines of words to the next syllable. */
const CHAINED: Readonly<Record<string, (attributes: string) => boolean>> = {
  pedal: (attributes) => attributeOf(attributes, 'dir') !== 'up',
  syl: (attributes) => attributeOf(attributes, 'con') !== undefined,
};

/** Stands before a measure with which a movement begins; the layout itself passes over it. */
export const MOVEMENT_START = '<?movement?>';

const TAG =
  /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<\?[\s\S]*?\?>|<(\/?)([^\s/>]+)((?:[^>"']|"[^"]*"|'[^']*')*)>/g;

interface Tag {
  readonly name: string;
  readonly attributes: string;
  readonly start: number;
  readonly end: number;
  readonly kind: 'start' | 'end' | 'empty';
}

/**
 * Takes a document apart at its measures. Linear in its length.
 *
 * @param text well-formed MEI
 * @returns null where measures stand in something else than sections and endings of one score
 */
export const outlineDocument = (text: string): DocumentOutline | null => {
  const tags = readTags(text);
  const above: string[] = [];
  let tag = tags.next();
  for (; tag !== undefined && tag.name !== 'score'; tag = tags.next()) {
    if (tag.kind === 'start') above.push(tag.name);
    else if (tag.kind === 'end') above.pop();
  }
  if (tag?.kind !== 'start') return null;
  const opening = withoutHead(text.slice(0, tag.end));
  const closing = ['score', ...above.reverse()].map((name) => `</${name}>`).join('');
  const pieces = readPieces(text, tags);
  for (tag = tags.next(); tag !== undefined; tag = tags.next()) if (tag.name === 'score') return null;
  const measures = (pieces ?? []).flatMap((piece) => (piece.kind === 'measure' ? [piece.measure] : []));
  return pieces === null ? null : { opening, closing, pieces, measures };
};

/** What stands in the score, up to its end tag; null where measures stand in something else than sections and endings. */
const readPieces = (text: string, tags: TagReader): Piece[] | null => {
  const pieces: Piece[] = [];
  let measures = 0;
  let beginsMovement = false;
  for (let tag = tags.next(); tag !== undefined; tag = tags.next()) {
    const { end, kind, name, start } = tag;
    if (kind === 'end' && name === 'score') break;
    if (name === 'measure') {
      if (kind !== 'start') return null;
      const read = readKnown(text, tag, tags);
      if (read === null) return null;
      pieces.push({ kind: 'measure', measure: { ...read, index: measures, beginsMovement } });
      beginsMovement = false;
      measures += 1;
    } else if (name === MOVEMENT_START) {
      beginsMovement = true;
    } else if (name === 'pb') {
      if (kind !== 'end') pieces.push({ kind: 'break' });
    } else if (CONTAINERS.has(name)) {
      if (kind === 'empty') continue;
      pieces.push({ kind: kind === 'start' ? 'open' : 'close', text: text.slice(start, end) });
    } else {
      const last = kind === 'start' ? skipElement(tags, name) : tag;
      if (last === null) return null;
      if (DEFINITIONS.has(name)) pieces.push({ kind: 'definition', text: text.slice(start, last.end) });
    }
  }
  return pieces;
};

/** Titles and such, which the layout does not print. */
const withoutHead = (opening: string): string => opening.replace(/<meiHead[\s>][\s\S]*<\/meiHead>/, '');

/** Reads a text from tag to tag. */
interface TagReader {
  readonly next: () => Tag | undefined;
  /** Goes on from a place. */
  readonly skipTo: (place: number) => void;
}

const readTags = (text: string): TagReader => {
  const pattern = new RegExp(TAG);
  const next = (): Tag | undefined => {
    for (let found = pattern.exec(text); found !== null; found = pattern.exec(text)) {
      const [whole, slash, name, attributes = ''] = found;
      if (name !== undefined) {
        const kind = slash === '/' ? 'end' : attributes.endsWith('/') ? 'empty' : 'start';
        return { name, attributes, kind, ...spanOf(found) };
      }
      if (whole === MOVEMENT_START) return { name: whole, attributes: '', kind: 'empty', ...spanOf(found) };
    }
    return undefined;
  };
  return {
    next,
    skipTo: (place) => {
      pattern.lastIndex = place;
    },
  };
};

const spanOf = ({ 0: whole, index }: RegExpExecArray): Pick<Tag, 'start' | 'end'> => ({
  start: index,
  end: index + whole.length,
});

/** Passes over an element. @returns its end tag; null where a measure stands in it */
const skipElement = (tags: TagReader, name: string): Tag | null => {
  let depth = 1;
  for (let tag = tags.next(); tag !== undefined; tag = tags.next()) {
    if (tag.name === 'measure') return null;
    if (tag.name !== name) continue;
    if (tag.kind === 'start') depth += 1;
    else if (tag.kind === 'end') depth -= 1;
    if (depth === 0) return tag;
  }
  return null;
};

/** What a measure says by itself. */
type ReadMeasure = Omit<MeasurePiece, 'index' | 'beginsMovement'>;

/** Characters of bars that are known. A hundred bars have about a quarter of a million. */
const MOST_CHARACTERS = 8_000_000;

/** Bars by their text: of a document that is written anew, nearly all are as they were. */
const KNOWN = createMemory<ReadMeasure>(MOST_CHARACTERS, ({ text }) => text.length);

const MEASURE_END = '</measure>';

/** In these an end tag is none. */
const VEILED = /<!--|<!\[CDATA\[|<\?/;

/** Reads a measure, or knows it from before. */
const readKnown = (text: string, startTag: Tag, tags: TagReader): ReadMeasure | null => {
  const { start } = startTag;
  const end = text.indexOf(MEASURE_END, startTag.end) + MEASURE_END.length;
  const own = text.slice(start, end);
  if (end <= start || VEILED.test(own)) return readMeasure(text, startTag, tags);
  const known = KNOWN.find(own);
  const read = known ?? readAlone(own);
  if (read === null) return null;
  if (known === undefined) KNOWN.keep(read.text, read);
  tags.skipTo(end);
  return read;
};

/** Reads a copy of the measure: what is read would otherwise keep the whole document in memory. */
const readAlone = (measure: string): ReadMeasure | null => {
  const copy = Buffer.from(measure, 'utf16le').toString('utf16le');
  const tags = readTags(copy);
  const startTag = tags.next();
  return startTag === undefined ? null : readMeasure(copy, startTag, tags);
};

const readMeasure = (text: string, startTag: Tag, tags: TagReader): ReadMeasure | null => {
  const ids: string[] = [];
  const links: Link[] = [];
  const clefs: WrittenClef[] = [];
  const chained = new Map<string, boolean>();
  let staff = '';
  for (let tag = tags.next(); tag !== undefined; tag = tags.next()) {
    const { attributes, kind, name } = tag;
    if (name === 'measure') {
      if (kind !== 'end') return null;
      const id = attributeOf(startTag.attributes, 'xml:id') ?? '';
      const whole = text.slice(startTag.start, tag.end);
      return {
        ...{ id, ids, chained },
        clefs: lastClefs(clefs),
        text: whole,
        startTag: text.slice(startTag.start, startTag.end),
        links: [...links, ...openSigns(whole)],
      };
    }
    if (kind === 'end') continue;
    if (UNFOLLOWED.has(name)) return null;
    const id = attributeOf(attributes, 'xml:id');
    if (id !== undefined) ids.push(id);
    const link = readLink(name, attributes);
    if (link !== null) links.push(link);
    const isOpen = CHAINED[name];
    if (isOpen !== undefined) chained.set(name, isOpen(attributes));
    if (name === 'staff') staff = attributeOf(attributes, 'n') ?? '';
    if (name === 'clef') {
      const own = { staff: attributeOf(attributes, 'staff') ?? staff, text: wholeEmpty(text, tag) };
      clefs.push({ ...own, id, sameAs: attributeOf(attributes, 'sameas')?.slice(1) });
    }
  }
  return null;
};

interface WrittenClef {
  readonly staff: string;
  readonly text: string;
  readonly id: string | undefined;
  /** The id of the clef that it repeats in another layer. */
  readonly sameAs: string | undefined;
}

/** The last clef of each staff in the order in which they are written, as the layout reads them. */
const lastClefs = (clefs: readonly WrittenClef[]): Map<string, string> =>
  new Map(
    clefs.flatMap(({ sameAs, staff, text }) => {
      const meant = sameAs === undefined ? text : clefs.find(({ id }) => id === sameAs)?.text;
      return meant === undefined ? [] : [[staff, meant] as const];
    }),
  );

const readLink = (name: string, attributes: string): Link | null => {
  const to = attributes.includes('#')
    ? [...attributes.matchAll(/=\s*(["'])#(.*?)\1/g)].flatMap(([, , list]) => list!.split(/\s+#?/))
    : [];
  const barsOn = Number(/^(\d+)m/.exec(attributeOf(attributes, 'tstamp2') ?? '')?.[1] ?? 0);
  const isSetOnce = name === 'beamSpan' || attributeOf(attributes, 'extender') === 'true';
  return to.length === 0 && barsOn === 0 ? null : { to, barsOn, isSetOnce };
};

/** Ties and slurs that are written at the notes alone end somewhere in the next bar. */
const openSigns = (measure: string): Link[] =>
  /\s(?:tie|slur)\s*=\s*["'][^"']*[im]/.test(measure) ? [{ to: [], barsOn: 1, isSetOnce: false }] : [];

const wholeEmpty = (text: string, { attributes, end, kind, start }: Tag): string =>
  kind === 'empty' ? text.slice(start, end) : `<clef${attributes}/>`;

const attributeOf = (attributes: string, name: string): string | undefined => {
  for (let at = attributes.indexOf(name); at >= 0; at = attributes.indexOf(name, at + 1)) {
    if (!/\s/.test(attributes[at - 1] ?? '')) continue;
    const value = /^\s*=\s*(?:"([^"]*)"|'([^']*)')/.exec(attributes.slice(at + name.length));
    if (value !== null) return value[1] ?? value[2];
  }
  return undefined;
};

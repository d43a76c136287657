import type { DocumentOutline, MeasurePiece, Piece } from './document-outline.ts';
import { type Line, type LineReach, reachOfLines } from './line-reach.ts';

/** Lines as documents of their own. */
export interface LineDocuments {
  readonly count: number;
  /** Ids of the whole document. */
  readonly ids: ReadonlySet<string>;
  /** The id of a line's first measure. */
  readonly nameOf: (line: number) => string;
  /** Whether a line ends a movement: it announces nothing of the next, which stands in another document. */
  readonly endsMovement: (line: number) => boolean;
  /**
   * The document of some neighbouring lines: what runs into them or out of them is carried over from the bars round them.
   *
   * @param first index of the first line
   * @param last index of the last
   */
  readonly write: (first: number, last: number) => LineDocument;
}

export interface LineDocument {
  readonly mei: string;
  /** Indices of the pages to be drawn, in this order: a line each. */
  readonly pages: readonly number[];
  /** How many of them are lines before the wanted ones, which these go by. */
  readonly extra: number;
}

/**
 * Divides a document into lines.
 *
 * @param lines the measures of each; without them a line begins after each page break
 * @returns null where more crosses the ends of lines than documents of their own could carry over
 */
export const divideIntoLines = (
  outline: DocumentOutline,
  lines: readonly Line[] = listLines(outline.pieces),
): LineDocuments | null => {
  const { closing, measures, opening, pieces } = outline;
  const reach = reachOfLines(outline, lines);
  if (reach === null) return null;
  const places = pieces.flatMap((piece, place) => (piece.kind === 'measure' ? [place] : []));
  const starts = new Set(lines.map(({ first }) => first));
  const staves = staffNumbers(pieces);
  const stateAt = followState(pieces, staves);
  const write = (wanted: number, last: number): LineDocument => {
    let line = wanted;
    while (line > 0 && reach[line]!.isBound) line -= 1;
    const own = { first: lines[line]!.first, last: lines[last]!.last };
    const stretch = stretchOf(measures, own, reach.slice(line, last + 1));
    const { ends } = stretch;
    const from = Math.max(0, Math.min(...ends, own.first - 1));
    const to = Math.min(measures.length - 1, Math.max(...ends, own.last + 1));
    const state = stateAt(from);
    const held = pieces.slice(places[from], places[to]! + 1);
    const body = writeBody(held, stretch, { from, starts, staves, open: state.open });
    const skipped = own.first === 0 ? 0 : 1;
    return {
      mei: [opening, ...state.text, ...body, closing].join(''),
      pages: Array.from({ length: last - line + 1 }, (_, i) => skipped + i),
      extra: wanted - line,
    };
  };
  return {
    count: lines.length,
    ids: new Set(measures.flatMap(({ id, ids }) => [id, ...ids])),
    nameOf: (line) => measures[lines[line]!.first]!.id,
    endsMovement: (line) => isLastOfMovement(measures, lines[line]!.last),
    write,
  };
};

/** Some lines in a row, with what reaches out of them. */
interface Stretch {
  readonly own: Line;
  /** Measures (indices) round them that hold the ends of what crosses. */
  readonly ends: ReadonlySet<number>;
  /** Whether something in them is counted in bars. */
  readonly isCounted: boolean;
  readonly endsMovement: boolean;
}

const stretchOf = (measures: readonly MeasurePiece[], own: Line, reach: readonly LineReach[]): Stretch => ({
  own,
  ends: new Set(reach.flatMap(({ ends }) => [...ends])),
  isCounted: reach.some(({ isCounted }) => isCounted),
  endsMovement: isLastOfMovement(measures, own.last),
});

interface Surroundings {
  /** Index of the first measure that is written. */
  readonly from: number;
  /** Measures with which lines begin. */
  readonly starts: ReadonlySet<number>;
  readonly staves: readonly string[];
  /** Start tags of what is open before it. */
  readonly open: readonly string[];
}

/** The measures of some lines with what stands round them, and the end tags of what is open behind. */
const writeBody = (
  pieces: readonly Piece[],
  { ends, endsMovement, isCounted, own }: Stretch,
  { from, open: openBefore, starts, staves }: Surroundings,
): string[] => {
  const open = [...openBefore];
  const body: string[] = [];
  const passed = new Map<string, string>();
  let isPastEnd = false;
  const put = (measure: string): void => {
    if (passed.size > 0) body.push(emptyMeasure('<measure>', staves, passed));
    passed.clear();
    body.push(measure);
  };
  for (const piece of pieces) {
    if (piece.kind === 'measure') {
      const { clefs, index, startTag, text } = piece.measure;
      const isOwn = index >= own.first && index <= own.last;
      const isNext = index === own.first - 1 || index === own.last + 1;
      if (index > from && (isOwn ? starts.has(index) : index === own.last + 1)) breakPage(body);
      if (isOwn || ends.has(index)) put(text);
      else if (isNext || isCounted || isInEnding(open)) put(emptyMeasure(startTag, staves, clefs));
      else for (const [staff, clef] of clefs) passed.set(staff, clef);
      isPastEnd ||= index === own.last && endsMovement;
    } else if (piece.kind === 'definition') {
      if (!isPastEnd) body.push(piece.text);
    } else if (piece.kind !== 'break') {
      body.push(piece.text);
      if (piece.kind === 'open') open.push(piece.text);
      else open.pop();
    }
  }
  return [...body, ...open.reverse().map((tag) => `</${/^<([^\s>]+)/.exec(tag)![1]}>`)];
};

/** The key and the metre of the next movement are no change. */
const isLastOfMovement = (measures: readonly MeasurePiece[], index: number): boolean =>
  measures[index + 1]?.beginsMovement ?? false;

/** An ending that begins a line is opened behind the break: before it, it would count as one that goes on. */
const breakPage = (body: string[]): void => {
  let at = body.length;
  while (at > 0 && body[at - 1]!.startsWith('<ending')) at -= 1;
  body.splice(at, 0, '<pb/>');
};

/** An ending without a measure is none. */
const isInEnding = (open: readonly string[]): boolean => open.some((tag) => tag.startsWith('<ending'));

const listLines = (pieces: readonly Piece[]): Line[] => {
  const lines: Line[] = [];
  let begins = true;
  for (const piece of pieces) {
    if (piece.kind === 'break') begins = true;
    if (piece.kind !== 'measure') continue;
    const { index } = piece.measure;
    if (begins) lines.push({ first: index, last: index });
    else lines[lines.length - 1] = { ...lines.at(-1)!, last: index };
    begins = false;
  }
  return lines;
};

const staffNumbers = (pieces: readonly Piece[]): string[] => {
  const definitions = pieces.flatMap((piece) => (piece.kind === 'definition' ? [piece.text] : []));
  return [...new Set(definitions.flatMap((text) => [...staffDefs(text)].map(({ n }) => n)))];
};

function* staffDefs(definition: string): Generator<{ readonly n: string; readonly hasClef: boolean }> {
  for (const part of definition.split(/(?=<staffDef\s)/).filter((each) => each.startsWith('<staffDef'))) {
    const n = /\sn\s*=\s*["']([^"']*)["']/.exec(part)?.[1];
    if (n !== undefined) yield { n, hasClef: /<clef[\s/>]|\sclef\.shape\s*=/.test(part) };
  }
}

/** What holds before a measure. */
interface State {
  /** Start tags of the sections and endings that it stands in, with what was defined before it. */
  readonly text: readonly string[];
  readonly open: readonly string[];
}

/** Follows clefs, keys and metres through the document. @returns what holds before a measure */
const followState = (pieces: readonly Piece[], staves: readonly string[]): ((measure: number) => State) => {
  const definitions: string[] = [];
  const snapshots: { readonly defined: number; readonly open: readonly string[]; readonly clefs: string }[] =
    [];
  const clefs = new Map<string, string>();
  let open: readonly string[] = [];
  for (const piece of pieces) {
    if (piece.kind === 'open') open = [...open, piece.text];
    else if (piece.kind === 'close') open = open.slice(0, -1);
    else if (piece.kind === 'definition') {
      definitions.push(piece.text);
      for (const { hasClef, n } of staffDefs(piece.text)) if (hasClef) clefs.delete(n);
    } else if (piece.kind === 'measure') {
      snapshots.push({
        defined: definitions.length,
        open,
        clefs: clefs.size === 0 ? '' : emptyMeasure('<measure>', staves, clefs),
      });
      for (const [staff, clef] of piece.measure.clefs) clefs.set(staff, clef);
    }
  }
  return (measure) => {
    const { clefs: held, defined, open: tags } = snapshots[measure]!;
    const [whole = '', ...later] = definitions.slice(0, defined);
    // The heading stands over the first line alone.
    const first = measure === 0 ? whole : whole.replace(/<pgHead[\s>][\s\S]*<\/pgHead>/, '');
    return { text: [first, ...tags, ...later, held], open: tags };
  };
};

/** A measure that shows nothing but leads over to what follows. */
const emptyMeasure = (
  startTag: string,
  staves: readonly string[],
  clefs: ReadonlyMap<string, string>,
): string =>
  `${startTag}${staves
    .map((n) => `<staff n="${n}"><layer n="1">${clefs.get(n) ?? ''}<mSpace/></layer></staff>`)
    .join('')}</measure>`;

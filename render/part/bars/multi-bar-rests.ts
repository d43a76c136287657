import {
  type Bar,
  childrenNamed,
  escapeText,
  type Score,
  toNumber,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import type { RestRun } from '../../markings/silences.ts';
import { clefSignsOf } from '../signs/clef-signs.ts';
import { spacesUnderWords } from '../texts/texts-in-rests.ts';
import { missingStaffEdits, missingStaves } from './missing-staves.ts';
import { SPARE_LAYER } from './repeat-bars.ts';

/** Bars of rest joined on the page. */
export interface CondensedRests {
  readonly edits: readonly Edit[];
  /** For a bar inside a joined rest, the index of the bar that stands for it. */
  readonly homes: ReadonlyMap<number, number>;
}

/** How rests are joined. */
export interface RestJoining {
  /** Bars (indices) that begin a joined rest in any case: they hold a marking of ours, or begin a line. */
  readonly begun: ReadonlySet<number>;
  /** Clefs that a bar ends with beside those of the document, by `bar staff`. */
  readonly prepared: ReadonlyMap<string, string>;
  /** Whether the numbers of its first and last bar stand under a joined rest. */
  readonly ranged: boolean;
}

/** What may stand over the first bar of a joined rest. */
const ALLOWED_EVENTS = new Set(['tempo', 'reh', 'dir', 'harpPedal']);
/** No clef is hidden. */
const HIDDEN = / visible=(?:"false"|'false')/;

const RESTS = new Set(['mRest', 'rest', 'mSpace', 'space']);

/**
 * Joins bars of rest as far as nothing is lost: not over bars in which something else is printed, which a hairpin or
 * line crosses, which end or begin with a special bar line, nor from one section of the document to the next.
 *
 * @param runs bars of rest in a row without a change of key, meter or section
 */
export const multiBarRests = (
  score: Score,
  mei: LayoutMei,
  runs: readonly RestRun[],
  { begun, prepared, ranged }: RestJoining,
): CondensedRests => {
  if (runs.length === 0) return { edits: [], homes: new Map() };
  const measures = score.bars.map((bar) => mei.measureOf(bar));
  const { crossed, parents, needlessClefs } = structureOf(mei, measures);
  const clefsIn: ClefsIn = (measure, staves) =>
    clefsAtEnd(measure, staves).filter((clef) => !needlessClefs.has(clef));
  const edits: Edit[] = [];
  const homes = new Map<number, number>();
  const isSilent = (bar: number): boolean => {
    const measure = measures[bar];
    return measure !== undefined && !crossed.has(bar) && holdsRestsOnly(measure, mei);
  };
  const follows = (bar: number): boolean => {
    const [before, measure] = [measures[bar - 1]!, measures[bar]!];
    const isPlain =
      eventsOf(measure, mei).length === 0 &&
      !hasSign(before, 'right') &&
      !hasSign(measure, 'left') &&
      clefsIn(before, mei.staves).length === 0;
    return isPlain && !begun.has(bar) && areNeighbours(before, measure, parents);
  };
  for (const run of runs) {
    for (const [first, last] of stretches(run, isSilent, follows)) {
      const clefOf = (n: string): string => prepared.get(`${last} ${n}`) ?? '';
      const joined = measures.slice(first, last + 1) as XmlElement[];
      const wanted = Math.max(spacesOf(last - first + 1), spacesUnderWords(score.texts, score.bars[first]!));
      const clefsAfter = (n: string): string => writeClefs(clefsIn(joined.at(-1)!, [n]), mei) + clefOf(n);
      const room = mei.staves.some((n) => clefsAfter(n) !== '')
        ? withinBar(wanted, score.bars[first]!)
        : { spaces: wanted, dur: 4 };
      edits.push(...joinEdits(mei, joined, clefsAfter, room));
      if (ranged) edits.push(rangeEdit(score, mei, { first, last, room }));
      for (let bar = first; bar <= last; bar += 1) homes.set(bar, first);
    }
  }
  return { edits, homes };
};

/** What of a document is the same whatever rests are joined in it. */
interface Structure {
  readonly crossed: ReadonlySet<number>;
  readonly parents: ReadonlyMap<XmlElement, XmlElement>;
  readonly needlessClefs: ReadonlySet<XmlElement>;
}

/** A document is written several times. */
const KNOWN = new WeakMap<LayoutMei, Structure>();

const structureOf = (mei: LayoutMei, measures: readonly (XmlElement | undefined)[]): Structure => {
  const structure = KNOWN.get(mei) ?? {
    crossed: crossedBars(measures, mei),
    parents: parentsOf(mei.root),
    needlessClefs: clefSignsOf(mei).needless,
  };
  KNOWN.set(mei, structure);
  return structure;
};

/** The longest stretches of at least two bars in a run, as first and last index. */
const stretches = (
  { first, last }: RestRun,
  isSilent: (bar: number) => boolean,
  follows: (bar: number) => boolean,
): [number, number][] => {
  const found: [number, number][] = [];
  let open: [number, number] | null = null;
  for (let bar = first; bar <= last; bar += 1) {
    if (!isSilent(bar)) open = null;
    else if (open !== null && follows(bar)) open[1] = bar;
    else {
      open = [bar, bar];
      found.push(open);
    }
  }
  return found.filter(([from, to]) => to > from);
};

const joinEdits = (
  mei: LayoutMei,
  measures: readonly XmlElement[],
  clefsAfter: (n: string) => string,
  room: Room,
): Edit[] => {
  const [home, ...joined] = measures as [XmlElement, ...XmlElement[]];
  const right = measures.at(-1)!.attributes.right;
  const layerOf = (n: string): string =>
    `<layer n="1"><multiRest num="${measures.length}"/>${clefsAfter(n)}</layer>`;
  return [
    ...harpStaves(home, mei.staves).map(({ inner, attributes }, i) => ({
      start: inner.start,
      end: inner.end,
      put: `${layerOf(attributes.n ?? '')}${i === 0 ? spacer(room) : ''}`,
    })),
    ...missingStaffEdits(home, mei.staves, layerOf),
    ...(right === undefined ? [] : [setAttribute(mei.text, home.span.start, 'right', right)]),
    ...joined.map(({ span }) => cut(span)),
  ];
};

/**
 * A layer of spaces that gives a joined rest a width by its length and its words: Verovio leaves it no wider than its figure.
 * Twice the bars take one space of a quarter note more.
 */
const spacer = ({ spaces, dur }: Room): string =>
  `<layer n="${SPARE_LAYER}">${`<space dur="${dur}"/>`.repeat(spaces)}</layer>`;

/** Spaces that give a joined rest its width, each as long as a note of this value. */
interface Room {
  readonly spaces: number;
  readonly dur: number;
}

/**
 * Spaces that end where one bar does: a clef at the end of a joined rest stands there, and not in the middle of it. As
 * many as are wanted, or more, since shorter ones are narrower.
 */
const withinBar = (wanted: number, { duration }: Bar): Room => {
  const spacesOfValue = (dur: number): number => Math.floor((toNumber(duration) * dur) / 4);
  const dur = [4, 8, 16].find((value) => spacesOfValue(value) >= wanted) ?? 32;
  return { dur, spaces: Math.max(1, spacesOfValue(dur)) };
};

const spacesOf = (bars: number): number => 1 + Math.round(Math.log2(bars));

/** A joined rest, and the room that it takes. */
interface JoinedRest {
  readonly first: number;
  readonly last: number;
  readonly room: Room;
}

/** The first and the last bar of a joined rest, under the middle of the upper staff. */
const rangeEdit = ({ bars }: Score, mei: LayoutMei, { first, last, room }: JoinedRest): Edit => {
  const [from, to] = [first, last].map((bar) => printedBarNumber(bars[bar]!.number));
  const middle = 1 + (room.spaces / 2) * (bars[first]!.meter.beatUnit / room.dur);
  const words = `<rend halign="center" fontstyle="normal" fontsize="80%">${escapeText(`${from}\u2013${to}`)}</rend>`;
  return insertAt(
    mei.measureOf(bars[first]!)!.inner.end,
    `<dir staff="${mei.staves[0]!}" tstamp="${middle}" place="below">${words}</dir>`,
  );
};

const harpStaves = (measure: XmlElement, staves: readonly string[]): XmlElement[] =>
  childrenNamed(measure, 'staff').filter((staff) => staves.includes(staff.attributes.n ?? ''));

/** A staff that the measure does not hold rests. */
const holdsRestsOnly = (measure: XmlElement, mei: LayoutMei): boolean => {
  const { staves } = mei;
  const own = harpStaves(measure, staves);
  const layers = own.flatMap((staff) => childrenNamed(staff, 'layer'));
  return (
    own.length + missingStaves(measure, staves).length === staves.length &&
    own.every((staff) => childrenNamed(staff, 'layer').length > 0) &&
    layers.every((layer) => /^(rest )+(clef )*$/.test(layer.children.map(kindOf).join(''))) &&
    eventsOf(measure, mei).every(({ name }) => ALLOWED_EVENTS.has(name))
  );
};

const kindOf = ({ name }: XmlElement): string => (RESTS.has(name) ? 'rest ' : `${name} `);

/** The clefs of some staves at the end of a bar of rest, where they prepare the next bar. */
type ClefsIn = (measure: XmlElement, staves: readonly string[]) => readonly XmlElement[];

const clefsAtEnd = (measure: XmlElement, staves: readonly string[]): XmlElement[] =>
  harpStaves(measure, staves)
    .flatMap((staff) => childrenNamed(staff, 'layer').slice(0, 1))
    .flatMap((layer) => childrenNamed(layer, 'clef'));

/** What stands beside the staves, but for what is left to other parts. */
const eventsOf = (measure: XmlElement, mei: LayoutMei): XmlElement[] =>
  measure.children.filter(
    (event) => event.name !== 'staff' && event.name !== 'oStaff' && !mei.isDropped(event),
  );

const writeClefs = (clefs: readonly XmlElement[], { text }: LayoutMei): string =>
  clefs.map(({ span }) => text.slice(span.start, span.end).replace(HIDDEN, '')).join('');

const hasSign = (measure: XmlElement, side: 'left' | 'right'): boolean =>
  !['', 'single', 'invis'].includes(measure.attributes[side] ?? '');

/** Measures with nothing but breaks between them. */
const areNeighbours = (
  before: XmlElement,
  measure: XmlElement,
  parents: ReadonlyMap<XmlElement, XmlElement>,
): boolean => {
  const parent = parents.get(before);
  if (parent === undefined || parents.get(measure) !== parent) return false;
  const siblings = parent.children;
  const from = siblings.indexOf(before);
  const to = siblings.indexOf(measure, from);
  return to > from && siblings.slice(from + 1, to).every(({ name }) => name === 'sb' || name === 'pb');
};

const parentsOf = (root: XmlElement): Map<XmlElement, XmlElement> => {
  const parents = new Map<XmlElement, XmlElement>();
  const visit = (element: XmlElement): void => {
    if (element.name === 'measure') return;
    for (const each of element.children) {
      if (each.name === 'measure') parents.set(each, element);
      visit(each);
    }
  };
  visit(root);
  return parents;
};

/** Bars that a line from an earlier bar reaches into: its end is counted in bars, or hangs on one of their notes. */
const crossedBars = (measures: readonly (XmlElement | undefined)[], mei: LayoutMei): Set<number> => {
  const barOf = new Map<string, number>();
  measures.forEach((measure, bar) => {
    if (measure !== undefined) noteIds(measure, bar, barOf);
  });
  const crossed = new Set<number>();
  measures.forEach((measure, bar) => {
    for (const { attributes } of measure === undefined ? [] : eventsOf(measure, mei)) {
      const counted = Number(/^(\d+)m/.exec(attributes.tstamp2 ?? '')?.[1] ?? 0);
      const hung = barOf.get((attributes.endid ?? '').replace(/^#/, '')) ?? bar;
      const end = Math.min(measures.length - 1, Math.max(bar + counted, hung));
      for (let each = bar + 1; each <= end; each += 1) crossed.add(each);
    }
  });
  return crossed;
};

const noteIds = (element: XmlElement, bar: number, barOf: Map<string, number>): void => {
  const id = element.attributes['xml:id'];
  if (id !== undefined) barOf.set(id, bar);
  for (const each of element.children) noteIds(each, bar, barOf);
};

import {
  beatAt,
  childrenNamed,
  compare,
  descendantsNamed,
  escapeText,
  type Note,
  type Score,
  startBar,
  stepOf,
  toNumber,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, insertAt, setAttribute } from '../edit.ts';
import type { LayoutMei } from '../layout/document/layout-mei.ts';
import { type StaffRange, stavesIn } from '../layout/spaces/reserve-spaces.ts';
import type { PartMei } from '../part/part-mei.ts';
import type { Cue } from './choose-cues.ts';
import {
  clefAtEntry,
  clefsBefore,
  entered,
  entryTag,
  type LowestLines,
  lowestOf,
  readClefs,
} from './cue-clefs.ts';
import { cueId, writeCueBar } from './cue-notation.ts';
import { type CueStaff, clefElement, fittingStaff } from './cue-staff.ts';

/** What is written, and where. */
export interface CuesToWrite {
  readonly cues: readonly Cue[];
  /** The harp's own. */
  readonly score: Score;
  /** The harp's among those of the page. */
  readonly staves: StaffRange;
}

/** Cues as they are written into the harp's document. */
export interface CueEdits {
  readonly edits: readonly Edit[];
  /** Bars (indices) that hold a cue: each stands by itself. */
  readonly bars: ReadonlySet<number>;
  /** Layers of a staff that a measure lacks, by `bar staff`. */
  readonly layers: ReadonlyMap<string, string>;
  /** Clefs at the end of a bar that prepare a cue in the next one, by `bar staff`. */
  readonly clefs: ReadonlyMap<string, string>;
  /** The name of the instrument once more, for bars (indices) with which a line may begin in the middle of a cue. */
  readonly names: ReadonlyMap<number, Edit>;
}

/** Rests that stand below a cue: at most so high over the lowest line, and so far under its notes, in steps. */
const REST_HIGHEST = -2;
const REST_BELOW = 4;

/**
 * Writes cues over the harp's rests, which stay below them.
 *
 * @param prepare a part as MEI; a cue of a part that cannot be had is left out
 */
export const cueEdits = (
  { staves: all, ...whole }: LayoutMei,
  { cues, score, staves }: CuesToWrite,
  prepare: (part: Score) => PartMei | null,
): CueEdits => {
  const mei = { ...whole, staves: stavesIn(all, staves) };
  const clefsAt = readClefs(score, mei);
  const prepared = new Map<Score, LayoutMei | null>();
  const partOf = (part: Score): LayoutMei | null => {
    const known = prepared.has(part) ? prepared.get(part)! : (prepare(part)?.mei ?? null);
    prepared.set(part, known);
    return known;
  };
  const written = cues.flatMap((cue) => {
    const source = partOf(cue.part.score);
    return source === null ? [] : [writeCue(score, mei, cue, source, clefsAt)];
  });
  return {
    edits: written.flatMap(({ edits }) => edits),
    bars: new Set(written.flatMap(({ bars }) => bars)),
    layers: new Map(written.flatMap(({ layers }) => layers)),
    clefs: new Map(written.flatMap(({ clefs }) => clefs)),
    names: new Map(written.flatMap(({ names }) => names)),
  };
};

interface WrittenCue {
  readonly edits: readonly Edit[];
  readonly bars: readonly number[];
  readonly layers: readonly (readonly [string, string])[];
  readonly clefs: readonly (readonly [string, string])[];
  readonly names: readonly (readonly [number, Edit])[];
}

const writeCue = (
  score: Score,
  mei: LayoutMei,
  cue: Cue,
  source: LayoutMei,
  clefsAt: ReadonlyMap<number, LowestLines>,
): WrittenCue => {
  const [start] = cue.bars;
  const before = clefsAt.get(start!) ?? new Map();
  const place = fittingStaff(cue.notes, mei.staves, before);
  const opening = before.get(place.n) === place.lowest ? '' : clefElement(place.lowest);
  // Clefs change before the bar line, but for the first bar.
  const prepares = opening !== '' && start! > 0;
  let clef: number | undefined = before.get(place.n);
  const last = cue.notes.at(-1)?.bar;
  // Where the harp comes in later in a bar that has nothing of the cue, that bar is the harp's alone.
  const bars = cue.bars.filter((bar) => last === undefined || bar <= last);
  const written = bars.flatMap((bar) => {
    const measure = mei.measureOf(score.bars[bar]!);
    if (measure === undefined) return [];
    clef = clefsAt.get(bar)?.get(place.n) ?? clef;
    const staff = childrenNamed(measure, 'staff').find(({ attributes }) => attributes.n === place.n);
    const changes = staff === undefined ? [] : clefsBefore(staff, entryTag(score, mei, cue));
    for (const change of changes) clef = lowestOf(change) ?? clef;
    const begin = bar === start && !prepares ? opening : '';
    const isLast = bar === bars.at(-1);
    const after = isLast && clef !== undefined && clef !== place.lowest ? clefElement(clef) : '';
    const events = eventsOf(score, cue, source, bar);
    const own =
      after === '' || staff === undefined
        ? []
        : clefAtEntry(staff, after, bar, entered(score, mei, cue, bar));
    const layer = `<layer n="1">${begin}${events}${own.length === 0 ? after : ''}</layer>`;
    const set = setCueBar(mei, { bar, measure, staff, changes, layer }, cue, place, score);
    return [{ ...set, edits: [...set.edits, ...own], names: nameAgain(score, cue, bar, measure, place.n) }];
  });
  return {
    edits: written.flatMap(({ edits }) => edits),
    bars: cue.bars,
    layers: written.flatMap(({ layers }) => layers),
    clefs: prepares ? [[`${start! - 1} ${place.n}`, opening]] : [],
    names: written.flatMap(({ names }) => names),
  };
};

/** For a bar in the middle of a cue. */
const nameAgain = (
  score: Score,
  { notes, part }: Cue,
  bar: number,
  measure: XmlElement,
  staff: string,
): WrittenCue['names'] => {
  const first = notes.find((note) => note.bar === bar);
  if (first === undefined || first === notes[0] || measure.inner.end === measure.span.end) return [];
  return [[bar, insertAt(measure.inner.end, nameAt(score, first, staff, `(${part.name})`))]];
};

interface CueBar {
  readonly bar: number;
  readonly measure: XmlElement;
  /** Undefined where the measure does not hold the staff. */
  readonly staff: XmlElement | undefined;
  /** The harp's own changes of clef, which wait for the end of the cue. */
  readonly changes: readonly XmlElement[];
  readonly layer: string;
}

const setCueBar = (
  { text }: LayoutMei,
  { bar, changes, layer, measure, staff }: CueBar,
  cue: Cue,
  place: CueStaff,
  score: Score,
): Pick<WrittenCue, 'edits' | 'layers'> => {
  const rest = restPlace(cue, bar, place);
  const whole = `${layer}${lowRest(rest)}`;
  const own =
    staff === undefined
      ? []
      : staff.inner.end === staff.span.end
        ? [{ ...staff.span, put: `<staff n="${place.n}">${whole}</staff>` }]
        : layerEdits(staff, layer, rest, text);
  const signs =
    measure.inner.end < measure.span.end
      ? [insertAt(measure.inner.end, signsOf(score, cue, bar, place.n))]
      : [];
  return {
    edits: [...changes.map(({ span }) => cut(span)), ...own, ...signs],
    layers: staff === undefined ? [[`${bar} ${place.n}`, whole]] : [],
  };
};

const restPlace = ({ notes }: Cue, bar: number, { lowest }: CueStaff): number => {
  const steps = notes.filter((note) => note.bar === bar).map(({ pitch }) => stepOf(pitch) - lowest);
  return Math.min(REST_HIGHEST, ...steps.map((step) => step - REST_BELOW));
};

const lowRest = (loc: number): string => `<layer n="2"><mRest loc="${loc}"/></layer>`;

/** The layer becomes the first of its staff, the rests that stood there the lower ones. */
const layerEdits = (staff: XmlElement, layer: string, rest: number, text: string): Edit[] => [
  ...childrenNamed(staff, 'layer').map(({ span }, i) => setAttribute(text, span.start, 'n', `${i + 2}`)),
  ...descendantsNamed(staff, 'mRest').map(({ span }) => setAttribute(text, span.start, 'loc', `${rest}`)),
  insertAt(staff.inner.start, layer),
];

const eventsOf = (score: Score, { part, notes, entry }: Cue, source: LayoutMei, bar: number): string => {
  const inBar = notes.filter((note) => note.bar === bar);
  const measure = source.measureOf(part.score.bars[bar]!);
  const tags = new Map(inBar.flatMap((note) => entryOf(source.tagOf(note), note)));
  const layer = measure === undefined ? undefined : layerWith(measure, tags);
  if (layer === undefined) return '<mSpace/>';
  const all = part.score.notes.filter((note) => note.bar === bar);
  return writeCueBar({
    layer,
    notes: new Map(all.flatMap((note) => entryOf(source.tagOf(note), note))),
    rests: new Map(
      part.score.rests
        .filter((rest) => rest.bar === bar)
        .flatMap((rest) => entryOf(source.tagOf(rest), rest)),
    ),
    entry,
    accidentals: startBar(score.bars[bar]!.keyFifths),
  });
};

const entryOf = <T>(start: number | undefined, event: T): [number, T][] =>
  start === undefined ? [] : [[start, event]];

/** The layer that holds most of the notes. */
const layerWith = (measure: XmlElement, notes: ReadonlyMap<number, unknown>): XmlElement | undefined => {
  const held = (layer: XmlElement): number =>
    descendantsNamed(layer, 'note').filter(({ span }) => notes.has(span.start)).length;
  const layers = descendantsNamed(measure, 'layer')
    .map((layer) => ({ layer, count: held(layer) }))
    .filter(({ count }) => count > 0);
  return layers.sort((a, b) => b.count - a.count)[0]?.layer;
};

/** The name of the instrument at the first note, and the ties and slurs of a bar. */
const signsOf = (score: Score, { notes, part }: Cue, bar: number, staff: string): string => {
  const inBar = notes.filter((note) => note.bar === bar);
  const known = new Set(notes.map(({ id }) => id));
  const ties = notes
    .filter(({ tiedFrom }) => tiedFrom !== null && inBar.some(({ id }) => id === tiedFrom))
    .map(
      ({ id, tiedFrom }) => `<tie startid="#${cueId(tiedFrom!)}" endid="#${cueId(id)}" curvedir="above"/>`,
    );
  const [first] = notes;
  const name = first === undefined || first.bar !== bar ? '' : nameAt(score, first, staff, part.name);
  return `${name}${ties.join('')}${slursOf(inBar, notes, part.score, known)}`;
};

const nameAt = ({ bars }: Score, { bar, onset }: Note, staff: string, name: string): string =>
  `<dir staff="${staff}" tstamp="${toNumber(beatAt(bars[bar]!, onset))}" place="above"><rend fontsize="80%" fontstyle="normal">${escapeText(name)}</rend></dir>`;

/** Slurs that begin in a bar and end within the cue; a part of several voices does not tell whose they are. */
const slursOf = (
  inBar: readonly Note[],
  notes: readonly Note[],
  { phrases, notes: all }: Score,
  known: ReadonlySet<string>,
): string => {
  const isAlone = all.every((note) => note.bar !== inBar[0]?.bar || known.has(note.id));
  if (!isAlone) return '';
  return phrases
    .filter(({ kind }) => kind === 'slur')
    .flatMap(({ start, last }) => {
      const from = inBar.find(({ onset, grace }) => grace === null && compare(onset, start) === 0);
      const to = notes.find(({ onset, grace }) => grace === null && compare(onset, last) === 0);
      if (from === undefined || to === undefined || from === to) return [];
      return [`<slur startid="#${cueId(from.id)}" endid="#${cueId(to.id)}" curvedir="above"/>`];
    })
    .join('');
};

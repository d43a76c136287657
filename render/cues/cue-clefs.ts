import { childrenNamed, compare, descendantsNamed, type Score, type XmlElement } from '../../engine/index.ts';
import { type Edit, insertAt } from '../edit.ts';
import type { LayoutMei } from '../layout/document/layout-mei.ts';
import { type Clefs, followClefs, takeClef } from '../part/signs/clefs.ts';
import { layerEvents } from '../part/signs/layer-events.ts';
import type { Cue } from './choose-cues.ts';

/** By the `n` of each staff: the step of its lowest line, counted up from C0. */
export type LowestLines = ReadonlyMap<string, number>;

/** The clefs with which each bar (index) begins. */
export const readClefs = (score: Score, mei: LayoutMei): ReadonlyMap<number, LowestLines> => {
  const barOf = new Map(score.bars.map((bar) => [mei.measureOf(bar), bar.index]));
  const found = new Map<number, LowestLines>();
  followClefs(mei.root, mei.staves, (measure, clefs) => {
    const bar = barOf.get(measure);
    if (bar !== undefined) found.set(bar, new Map(clefs));
  });
  return found;
};

/** Where the note stands with which the harp comes in. */
export const entryTag = (score: Score, mei: LayoutMei, { bar, entry }: Cue): number =>
  Math.min(
    ...score.notes
      .filter((note) => note.bar === bar && compare(note.onset, entry) === 0)
      .map((note) => mei.tagOf(note) ?? Number.POSITIVE_INFINITY),
  );

/** @param until a place in the text */
export const clefsBefore = (staff: XmlElement, until: number): readonly XmlElement[] =>
  descendantsNamed(staff, 'clef').filter(({ span }) => span.start < until);

/** The step of the lowest line in a clef. */
export const lowestOf = (clef: XmlElement): number | undefined => {
  const clefs: Clefs = new Map();
  takeClef(clefs, '', clef, '');
  return clefs.get('');
};

/** Tags of the notes in a bar with which the harp has come in. */
export const entered = (score: Score, mei: LayoutMei, { entry }: Cue, bar: number): ReadonlySet<number> =>
  new Set(
    score.notes
      .filter((note) => note.bar === bar && compare(note.onset, entry) >= 0)
      .flatMap((note) => mei.tagOf(note) ?? []),
  );

/** The harp's clef before the notes with which it comes in: of its own voices, since the layout reads each by itself. */
export const clefAtEntry = (
  staff: XmlElement,
  clef: string,
  bar: number,
  notes: ReadonlySet<number>,
): Edit[] => {
  const id = `cue-clef-${bar}`;
  const places = childrenNamed(staff, 'layer').flatMap((layer) => {
    const first = layerEvents(layer).find(({ element }) =>
      [element, ...element.children].some(({ span }) => notes.has(span.start)),
    );
    return first === undefined ? [] : [first.before];
  });
  return places.map((place, i) =>
    insertAt(place, i === 0 ? clef.replace('<clef', `<clef xml:id="${id}"`) : `<clef sameas="#${id}"/>`),
  );
};

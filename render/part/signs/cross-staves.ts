import { childrenNamed, descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { type Clefs, clefsInMeasure, followClefs } from './clefs.ts';
import { type PlacedNote, placedNotes, reachOf, type StaffPair } from './ledger-lines.ts';

/** Notes that are written on the other staff of the harp. */
export interface CrossedNotes {
  readonly edits: readonly Edit[];
  /** Their start tags. */
  readonly tags: ReadonlySet<number>;
  /** By measure, `n` of the staff on which they are written. */
  readonly guests: ReadonlyMap<XmlElement, string>;
}

export const NOTHING_CROSSED: CrossedNotes = { edits: [], tags: new Set(), guests: new Map() };

/**
 * Writes notes with many ledger lines towards the other staff of the harp on that staff, where they need few: a beam as a
 * whole where all of it fits, else the chord or note alone.
 *
 * Where that would change how accidentals are read, in bars with a change of clef, and under octave lines, they stay.
 */
export const crossStaves = (mei: LayoutMei, staves: StaffPair): CrossedNotes => {
  const edits: Edit[] = [];
  const tags = new Set<number>();
  const guests = new Map<XmlElement, string>();
  const octaves = measuresUnderOctaveLines(mei.root);
  followClefs(mei.root, staves, (measure, clefs) => {
    if (clefsInMeasure(measure, staves).length > 0 || octaves.has(measure)) return;
    for (const [from, to] of [staves, [staves[1], staves[0]]] as const) {
      const moved = crossingEvents(measure, { from, to }, staves, clefs);
      if (moved.length === 0 || guests.has(measure) || changesReading(measure, moved, { from, to })) continue;
      // What comes from above is the upper voice of the staff below, and the other way round.
      const stem = from === staves[0] ? 'up' : 'down';
      for (const { event, notes } of moved) {
        edits.push(setAttribute(mei.text, event.span.start, 'staff', to));
        edits.push(setAttribute(mei.text, event.span.start, 'stem.dir', stem));
        for (const { element } of notes) tags.add(element.span.start);
      }
      guests.set(measure, to);
    }
  });
  return { edits, tags, guests };
};

/** A chord, or a note outside a chord. */
interface PitchedEvent {
  readonly event: XmlElement;
  readonly notes: readonly PlacedNote[];
}

interface Way {
  readonly from: string;
  readonly to: string;
}

const crossingEvents = (
  measure: XmlElement,
  { from }: Way,
  staves: StaffPair,
  clefs: Clefs,
): readonly PitchedEvent[] => {
  const reaches = ({ notes }: PitchedEvent) => notes.map((note) => reachOf(note, staves, clefs));
  const isFar = (each: PitchedEvent): boolean => reaches(each).some((reach) => reach?.isFar === true);
  const fits = (each: PitchedEvent): boolean => reaches(each).every((reach) => reach?.isWithin === true);
  return groupsOf(measure, from).flatMap((group) => {
    if (group.some(isFar) && group.every(fits)) return group;
    return group.filter((each) => isFar(each) && fits(each));
  });
};

/** The notes and chords that stand on a staff of their own, by beams. */
const groupsOf = (measure: XmlElement, n: string): readonly (readonly PitchedEvent[])[] => {
  const groups: PitchedEvent[][] = [];
  const visit = (element: XmlElement, group: PitchedEvent[] | null): void => {
    for (const each of element.children) {
      if (each.name === 'note' || each.name === 'chord') {
        const isOwn = [each, ...each.children].every(({ attributes }) => attributes.staff === undefined);
        const event = { event: each, notes: placedNotes(each, n) };
        if (!isOwn || event.notes.length === 0) continue;
        if (group === null) groups.push([event]);
        else group.push(event);
      } else if (each.name === 'beam' && group === null) {
        const beamed: PitchedEvent[] = [];
        groups.push(beamed);
        visit(each, beamed);
      } else visit(each, group);
    }
  };
  for (const staff of childrenNamed(measure, 'staff').filter(({ attributes }) => attributes.n === n))
    visit(staff, null);
  return groups.filter(({ length }) => length > 0);
};

/** An accidental holds on its staff: notes of one line or space part only with all of their bar. */
const changesReading = (measure: XmlElement, moved: readonly PitchedEvent[], { from, to }: Way): boolean => {
  const leaving = new Set(moved.flatMap(({ notes }) => notes.map(({ element }) => element.span.start)));
  const positions = new Set(moved.flatMap(({ notes }) => notes.map(({ position }) => position)));
  return childrenNamed(measure, 'staff')
    .filter(({ attributes }) => attributes.n === from || attributes.n === to)
    .flatMap((staff) => placedNotes(staff, staff.attributes.n!))
    .some(({ element, position }) => positions.has(position) && !leaving.has(element.span.start));
};

/** Notes under an octave line are written in another octave than they sound in. */
const measuresUnderOctaveLines = (root: XmlElement): ReadonlySet<XmlElement> => {
  const measures = descendantsNamed(root, 'measure');
  const homes = new Map(
    measures.flatMap((measure, index) =>
      descendantsNamed(measure, 'note', 'chord', 'rest').map(
        ({ attributes }) => [attributes['xml:id'] ?? '', index] as const,
      ),
    ),
  );
  const under = new Set<XmlElement>();
  measures.forEach((measure, index) => {
    for (const { attributes } of childrenNamed(measure, 'octave')) {
      const counted = Number(/^(\d+)m/.exec(attributes.tstamp2 ?? '')?.[1] ?? 0);
      const last = Math.max(index + counted, homes.get((attributes.endid ?? '').replace(/^#/, '')) ?? index);
      for (const each of measures.slice(index, last + 1)) under.add(each);
    }
  });
  return under;
};

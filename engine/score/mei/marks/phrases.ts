import { bisector } from 'd3-array';
import { add, compare, type Rational } from '../../../music/rational.ts';
import type { PhraseMark } from '../../model/between-notes.ts';
import type { Control, NoteDraft } from '../draft.ts';
import { comparePlayingOrder, type MarkPoint } from './mark-times.ts';
import type { MarkContext } from './marks.ts';

/** Elements that end a phrase. */
const STOPS: ReadonlyMap<string, Exclude<PhraseMark['kind'], 'slur'>> = new Map([
  ['fermata', 'fermata'],
  ['breath', 'breath'],
  ['caesura', 'caesura'],
]);

/**
 * Slurs and phrase lines, and the signs that stop the music, as elements and as attributes; what has no notes of the
 * harp is passed over, since no note depends on it.
 */
export const findPhrases = (context: MarkContext): readonly PhraseMark[] => {
  const notes = context.notes.toSorted(comparePlayingOrder);
  const elements = context.controls.flatMap((control): readonly PhraseMark[] => {
    const { name } = control.element;
    if (name === 'slur' || name === 'phrase') return slurOf(control, context);
    return STOPS.has(name) ? stopOf(control, context, notes) : [];
  });
  return [...elements, ...attributePhrases(notes)].sort((a, b) => compare(a.start, b.start));
};

const slurOf = (control: Control, { times }: MarkContext): readonly PhraseMark[] => {
  const start = times.startOf(control);
  const end = start && times.endOf(control, start);
  const [first] = start === null ? [] : times.notesAt(control, start);
  const last = end === null ? [] : times.notesAt(control, end);
  if (first === undefined || last.length === 0) return [];
  return [{ kind: 'slur', start: first.onset, last: last[0]!.onset, end: lastEnd(last) }];
};

/** A breath mark or caesura that names a time stands before what begins there. */
const stopOf = (
  control: Control,
  { times }: MarkContext,
  notes: readonly NoteDraft[],
): readonly PhraseMark[] => {
  const kind = STOPS.get(control.element.name)!;
  const point = times.startOf(control);
  if (point === null) return [];
  if (kind !== 'fermata' && !point.namesNote) {
    return times.atHarp(control, point) ? stopBefore(kind, point, notes) : [];
  }
  const there = times.notesAt(control, point);
  if (there.length === 0) return [];
  const { onset } = there[0]!;
  return [{ kind, start: onset, last: onset, end: lastEnd(there) }];
};

const stopBefore = (
  kind: PhraseMark['kind'],
  { onset }: MarkPoint,
  notes: readonly NoteDraft[],
): readonly PhraseMark[] => {
  const before = notes[byOnset.left(notes, onset) - 1];
  return before === undefined ? [] : [{ kind, start: before.onset, last: before.onset, end: onset }];
};

const byOnset = bisector((note: NoteDraft, at: Rational) => compare(note.onset, at));

/** @param notes in playing order */
const attributePhrases = (notes: readonly NoteDraft[]): readonly PhraseMark[] => {
  const open = new Map<string, NoteDraft>();
  const found: PhraseMark[] = [];
  for (const note of notes) {
    const { onset, staff, slurs } = note;
    if (note.fermata) found.push({ kind: 'fermata', start: onset, last: onset, end: lastEnd([note]) });
    for (const [, number] of slurs.filter((each) => each.startsWith('t'))) {
      const from = open.get(`${staff} ${number}`);
      open.delete(`${staff} ${number}`);
      if (from !== undefined)
        found.push({ kind: 'slur', start: from.onset, last: onset, end: lastEnd([note]) });
    }
    for (const [, number] of slurs.filter((each) => each.startsWith('i'))) {
      open.set(`${staff} ${number}`, note);
    }
  }
  return found;
};

const lastEnd = (notes: readonly NoteDraft[]): Rational =>
  notes
    .map(({ onset, duration }) => add(onset, duration))
    .reduce((latest, end) => (compare(end, latest) > 0 ? end : latest));

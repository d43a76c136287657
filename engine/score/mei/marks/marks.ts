import { stepOf } from '../../../music/pitch.ts';
import { add, compare, type Rational } from '../../../music/rational.ts';
import type { Damp, Sweep } from '../../model/between-notes.ts';
import type { Note } from '../../model/note.ts';
import { readSweepWords } from '../../words/glissando-words.ts';
import type { Control, NoteDraft } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { readReferences } from '../values.ts';
import { comparePlayingOrder, type MarkTimes } from './mark-times.ts';

/** What marks need to know of the reading. */
export interface MarkContext {
  readonly notes: readonly NoteDraft[];
  readonly controls: readonly Control[];
  readonly times: MarkTimes;
  /** The harp's notes that an id stands for. */
  readonly notesOf: (id: string) => readonly NoteDraft[];
  readonly log: ReadLog;
}

/** Chords that are broken, by chord id; on the harp `nonarp` asks for all notes together (MEI 5.1, arpeg). */
export const findArpeggios = (context: MarkContext): ReadonlyMap<string, NonNullable<Note['arpeggio']>> => {
  const { controls, times, notesOf, notes, log } = context;
  const found = new Map<string, NonNullable<Note['arpeggio']>>();
  for (const control of controls) {
    if (control.element.name !== 'arpeg') continue;
    const start = times.startOf(control);
    const listed = readReferences(control.element, 'plist').flatMap(notesOf);
    const meant = listed.length > 0 || start === null ? listed : times.notesAt(control, start);
    for (const note of meant) found.set(note.chord, directionOf(control.element.attributes.order));
    if (meant.length === 0 && times.atHarp(control, start)) {
      log.skip('an arpeggio that belongs to no chord', control.bar);
    }
  }
  for (const note of notes) {
    const arpeggio = note.copyOf === null ? undefined : found.get(note.copyOf.chord);
    if (arpeggio !== undefined) found.set(note.chord, arpeggio);
  }
  return found;
};

const directionOf = (order: string | undefined): NonNullable<Note['arpeggio']> => {
  if (order === 'up' || order === 'down') return order;
  return order === 'nonarp' ? 'none' : 'plain';
};

/** Notes left to ring by a `lv` element. */
export const findLetRing = ({ controls, times }: MarkContext): ReadonlySet<NoteDraft> =>
  new Set(
    controls
      .filter((control) => control.element.name === 'lv')
      .flatMap((control) => {
        const start = times.startOf(control);
        return start === null ? [] : times.notesAt(control, start);
      }),
  );

interface Ends {
  readonly from: NoteDraft;
  readonly to: NoteDraft;
  readonly words: Sweep['words'];
}

/**
 * Glissandi: by `gliss` elements, and by the attribute from each note to the next of its layer. MEI has no sign of its
 * own for a slide: a glissando that stays on one string sweeps none, and is one.
 */
export const findSweeps = (context: MarkContext): readonly Sweep[] => {
  const ends = [...elementGlissandi(context), ...attributeGlissandi(context.notes)];
  return ends
    .map(({ from, to, words }): Sweep => {
      const isOneString = stepOf(from.written) === stepOf(to.written);
      const kind = isOneString ? 'slide' : 'glissando';
      return { kind, from: from.id, to: to.id, start: from.onset, end: to.onset, bar: from.bar, words };
    })
    .sort((a, b) => compare(a.start, b.start));
};

const elementGlissandi = ({ controls, times, log }: MarkContext): readonly Ends[] =>
  controls.flatMap((control) => {
    if (control.element.name !== 'gliss') return [];
    const start = times.startOf(control);
    const end = start && times.endOf(control, start);
    const from = start === null ? [] : fromLowest(times.notesAt(control, start));
    const to = end === null ? [] : fromLowest(times.notesAt(control, end));
    if (from.length > 0 && to.length > 0) {
      const words = readSweepWords(control.element.text);
      return pairUp(from, to).map((ends) => ({ ...ends, words }));
    }
    if (from.length > 0 || times.atHarp(control, start))
      log.skip('a glissando whose ends are not found', control.bar);
    return [];
  });

const fromLowest = (notes: readonly NoteDraft[]): readonly NoteDraft[] =>
  notes.toSorted((a, b) => stepOf(a.written) - stepOf(b.written));

const pairUp = (from: readonly NoteDraft[], to: readonly NoteDraft[]): readonly Omit<Ends, 'words'>[] =>
  from.slice(0, to.length).map((note, index) => ({ from: note, to: to[index]! }));

const attributeGlissandi = (notes: readonly NoteDraft[]): readonly Ends[] => {
  const open = new Map<string, NoteDraft>();
  const ends: Ends[] = [];
  for (const note of notes.toSorted(comparePlayingOrder)) {
    if (note.gliss === null) continue;
    const from = open.get(note.voice);
    if (note.gliss !== 'i' && from !== undefined && from.chord !== note.chord)
      ends.push({ from, to: note, words: null });
    if (note.gliss === 't') open.delete(note.voice);
    else if (from?.chord !== note.chord) open.set(note.voice, note);
  }
  return ends;
};

/**
 * Damping signs as articulations (MEI 5.1, data.ARTICULATION `damp`, `dampall`): strings are stilled where the note
 * that bears the sign ends.
 */
export const findDamps = (notes: readonly NoteDraft[]): readonly Damp[] => {
  const endOf = (note: NoteDraft): Rational => add(note.onset, note.duration);
  const damps = notes.flatMap((note): Damp[] => {
    if (note.damp === null) return [];
    return [{ at: endOf(note), kind: note.damp, staff: note.damp === 'damp' ? note.staff : null }];
  });
  const seen = new Set<string>();
  return damps
    .filter((damp) => {
      const key = `${damp.at.num}/${damp.at.den} ${damp.kind} ${damp.staff}`;
      const before = seen.size;
      return seen.add(key).size > before;
    })
    .sort((a, b) => compare(a.at, b.at));
};

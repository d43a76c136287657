import { add, equals, type Rational } from '../../music/rational.ts';
import type { Control, NoteDraft } from './draft.ts';
import type { ReadLog } from './log.ts';
import { comparePlaying, type Times } from './times.ts';
import { xmlId } from './values.ts';

/** For each note that is tied to, the note it is tied from. */
export type Ties = ReadonlyMap<NoteDraft, NoteDraft>;

const sameLine = (a: NoteDraft, b: NoteDraft): boolean =>
  a.written.letter === b.written.letter && a.written.octave === b.written.octave;

/**
 * Joins tied notes: by the elements `tie`, then by the attribute `tie` of notes and chords.
 *
 * A tie between two letters or octaves is kept here, so that it can be told of once pitches are known.
 */
export const joinTies = (
  notes: readonly NoteDraft[],
  controls: readonly Control[],
  times: Times,
  barNumber: (bar: number) => string,
  log: ReadLog,
): Ties => {
  const ties = new Map<NoteDraft, NoteDraft>();
  for (const control of controls) {
    if (control.element.name === 'tie') joinElement(control, times, ties, barNumber, log);
  }
  joinCopies(notes, ties);
  joinAttributes(notes, ties, barNumber, log);
  return ties;
};

const joinElement = (
  control: Control,
  times: Times,
  ties: Map<NoteDraft, NoteDraft>,
  barNumber: (bar: number) => string,
  log: ReadLog,
): void => {
  const start = times.startOf(control);
  const end = start && times.endOf(control, start);
  const from = start === null ? [] : times.notesAt(control, start);
  const to = end === null ? [] : times.notesAt(control, end);
  if (from.length === 0 && !times.atHarp(control, start)) return;
  const [only] = to;
  for (const note of from) {
    const match =
      to.find((each) => sameLine(note, each)) ?? (from.length === 1 && to.length === 1 ? only : undefined);
    if (match !== undefined && match !== note) ties.set(match, note);
  }
  if (start === null || end === null || to.length === 0) {
    const id = xmlId(control.element);
    log.skip(`a tie whose ends are not found${id === undefined ? '' : ` (${id})`}`, barNumber(control.bar));
  }
};

/** A repeat sign plays ties again where both notes are within what it repeats. */
const joinCopies = (notes: readonly NoteDraft[], ties: Map<NoteDraft, NoteDraft>): void => {
  const copies = new Map(notes.map((note) => [`${note.copyOf?.id} ${note.bar}`, note]));
  for (const note of notes) {
    const from = note.copyOf === null ? undefined : ties.get(note.copyOf);
    const copied = from && copies.get(`${from.id} ${note.bar}`);
    if (copied !== undefined) ties.set(note, copied);
  }
};

/** `i` opens, `t` closes, `m` does both (MEI 5.1, data.TIE): the next note of that line that begins where the open one ends. */
const joinAttributes = (
  notes: readonly NoteDraft[],
  ties: Map<NoteDraft, NoteDraft>,
  barNumber: (bar: number) => string,
  log: ReadLog,
): void => {
  const open = new Map<string, NoteDraft[]>();
  for (const note of notes.toSorted(comparePlaying)) {
    const line = `${note.written.letter}${note.written.octave}`;
    const waiting = open.get(line) ?? [];
    if (note.tie !== null && note.tie !== 'i' && !ties.has(note)) {
      const from = nearestOf(
        waiting.filter((each) => endsAt(each, note.onset)),
        note,
      );
      if (from !== undefined) ties.set(note, from);
      else if (note.copyOf === null) log.skip('the end of a tie that begins nowhere', barNumber(note.bar));
    }
    if (note.tie === 'i' || note.tie === 'm')
      open.set(line, [...waiting.filter((each) => each.bar >= note.bar - 1), note]);
  }
};

const endsAt = (note: NoteDraft, time: Rational): boolean => equals(add(note.onset, note.duration), time);

const nearestOf = (candidates: readonly NoteDraft[], note: NoteDraft): NoteDraft | undefined =>
  candidates.findLast((each) => each.voice === note.voice && each !== note) ??
  candidates.findLast((each) => each.staff === note.staff && each !== note) ??
  candidates.findLast((each) => each !== note);

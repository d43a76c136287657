import { add, compare, equals, type Rational, rationalKey } from '../../../music/rational.ts';
import { type BarDraft, type Control, groupByBar, type NoteDraft } from '../draft.ts';
import type { ReadLog } from '../log.ts';
import { xmlId } from '../values.ts';
import type { MarkTimes } from './mark-times.ts';

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
  bars: readonly BarDraft[],
  controls: readonly Control[],
  times: MarkTimes,
  log: ReadLog,
): Ties => {
  const ties = new Map<NoteDraft, NoteDraft>();
  for (const control of controls) {
    if (control.element.name === 'tie') joinElement(control, times, ties, log);
  }
  joinCopies(notes, ties);
  joinAttributes(notes, bars, ties, log);
  return ties;
};

const joinElement = (
  control: Control,
  times: MarkTimes,
  ties: Map<NoteDraft, NoteDraft>,
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
    if (match !== undefined && match !== note && compare(match.onset, note.onset) >= 0) ties.set(match, note);
  }
  if (start === null || end === null || to.length === 0) {
    const id = xmlId(control.element);
    log.skip(`a tie whose ends are not found${id === undefined ? '' : ` (${id})`}`, control.bar);
  }
};

/** A repeat sign plays ties again where both notes are within what it repeats. */
const joinCopies = (notes: readonly NoteDraft[], ties: Map<NoteDraft, NoteDraft>): void => {
  const placeOf = (model: NoteDraft, copy: NoteDraft): string => `${model.id} ${copy.bar} ${copy.span.start}`;
  const copies = new Map(
    notes.flatMap((note) => (note.copyOf === null ? [] : [[placeOf(note.copyOf, note), note]])),
  );
  for (const note of notes) {
    const from = note.copyOf === null ? undefined : ties.get(note.copyOf);
    const copied = from && copies.get(placeOf(from, note));
    if (copied !== undefined) ties.set(note, copied);
  }
};

/**
 * `i` opens, `t` closes, `m` does both (MEI 5.1, data.TIE): a note is tied from the one of its line that ends where it
 * begins, or, at the start of a later ending, where the first ending begins.
 */
const joinAttributes = (
  notes: readonly NoteDraft[],
  bars: readonly BarDraft[],
  ties: Map<NoteDraft, NoteDraft>,
  log: ReadLog,
): void => {
  const starts = notes.filter((note) => note.tie === 'i' || note.tie === 'm');
  const open = new Map<string, NoteDraft>();
  for (const note of starts) for (const place of placesOf(note, endOf(note))) open.set(place, note);
  const loose: NoteDraft[] = [];
  for (const note of notes) {
    if (note.tie === null || note.tie === 'i' || ties.has(note)) continue;
    const from = [note.onset, ...beforeFirstEnding(note, bars)]
      .flatMap((time) => placesOf(note, time))
      .map((place) => open.get(place))
      .find((each) => each !== undefined && each !== note);
    if (from !== undefined) ties.set(note, from);
    else if (note.copyOf === null) loose.push(note);
  }
  const joined = new Set(ties.values());
  const unmet = groupByBar(starts.filter((note) => !joined.has(note)));
  for (const note of loose) log.skip(whyLoose(note, unmet), note.bar);
};

const endOf = ({ onset, duration }: NoteDraft): Rational => add(onset, duration);

/** What is wrong with the end of a tie, given the starts that lead nowhere, by bar. */
const whyLoose = (note: NoteDraft, unmet: ReadonlyMap<number, readonly NoteDraft[]>): string => {
  const start = [note.bar, note.bar - 1]
    .map((bar) =>
      unmet.get(bar)?.findLast((each) => sameLine(each, note) && compare(each.onset, note.onset) < 0),
    )
    .find((each) => each !== undefined);
  if (start === undefined) return 'the end of a tie that begins nowhere';
  const first = start.role === 'hidden' ? 'hidden first note' : 'first note';
  return compare(endOf(start), note.onset) < 0
    ? `a tie whose ${first} ends before the second begins`
    : `a tie whose ${first} is still sounding when the second begins`;
};

/** Where to look for the other end of a tie at a time, best first: in the voice, on the staff, anywhere. */
const placesOf = ({ written, voice, staff }: NoteDraft, time: Rational): readonly string[] => {
  const line = `${written.letter}${written.octave} ${rationalKey(time)}`;
  return [`${line} voice ${voice}`, `${line} staff ${staff}`, line];
};

/** For a note at the very start of a second or later ending: the time at which the first of these endings starts. */
const beforeFirstEnding = (note: NoteDraft, bars: readonly BarDraft[]): readonly Rational[] => {
  const isEnding = (index: number): boolean => (bars[index]?.endings.length ?? 0) > 0;
  if (!isEnding(note.bar) || !equals(note.onset, bars[note.bar]!.onset)) return [];
  let first = note.bar;
  while (isEnding(first - 1)) first -= 1;
  return first === note.bar ? [] : [bars[first]!.onset];
};

import type { LeverPlan } from '../../engine/levers/model.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { secondsBetween, stopsBefore, value } from './clock.ts';

/** What goes wrong when a lever plan is played. */
export interface LeverPerformance {
  /** Notes that find their string at another pitch, or none. */
  readonly missingNotes: readonly { readonly note: string; readonly bar: string; readonly pass: number }[];
  /** Changes for which the hand has no time: it plays too close, or sets another lever. */
  readonly hurries: readonly { readonly barIndex: number; readonly with: 'note' | 'change' }[];
  readonly notesPlayed: number;
  readonly changesMade: number;
}

const SEMITONES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

interface Named {
  readonly letter: string;
  readonly octave: number;
}

interface Wanted extends Named {
  readonly alter: number;
}

const stringName = ({ letter, octave }: Named): string => `${letter}${octave}`;
const keyNumber = ({ letter, alter, octave }: Wanted): number => 12 * octave + SEMITONES[letter]! + alter;

/**
 * Plays a part as a harpist would who knows nothing but the tuning, the levers set at the start and the changes,
 * repeats followed; a change for one time of playing is made then alone. It shares no code with the planner: a string sounds as it is tuned, a semitone higher with its
 * lever up; a note is served if the string that it is written for, or respelled to, sounds its pitch.
 *
 * @param leverSeconds time that a hand needs for one change, half of it before and half after
 */
export const playLevers = (
  score: Score,
  plan: LeverPlan,
  range: { readonly lowest: Named; readonly highest: Named },
  leverSeconds: number,
): LeverPerformance => {
  const missingNotes: { note: string; bar: string; pass: number }[] = [];
  const plucks: { seconds: number; until: number; staff: number; grace: boolean }[] = [];
  const changes: { seconds: number; hand: string; barIndex: number }[] = [];
  const up = new Set(plan.initial.map(stringName));
  const passes = new Map<number, number>();
  let notesPlayed = 0;
  let clock = 0;
  for (const [index, barIndex] of score.playOrder.entries()) {
    const bar = score.bars[barIndex]!;
    const pass = (passes.get(barIndex) ?? 0) + 1;
    passes.set(barIndex, pass);
    const start = value(bar.onset);
    const secondsAt = (at: number): number => clock + secondsBetween(score, start, at);
    for (const event of eventsOf(score, plan, barIndex)) {
      if (event.kind === 'change') {
        const { onlyAt } = event.move;
        if (onlyAt !== null && (onlyAt === 'first') !== (pass === 1)) continue;
        const name = stringName(event.move.string);
        // A change that restores does nothing where the lever is there already.
        if (up.has(name) === (event.move.to === 'up')) continue;
        if (event.move.to === 'up') up.add(name);
        else up.delete(name);
        if (event.at === start && stopsBefore(score, index)) continue;
        changes.push({ seconds: secondsAt(event.at), hand: event.move.hand, barIndex });
        continue;
      }
      const { note } = event;
      notesPlayed += 1;
      const until = event.at + (isHeld(note) ? value(note.duration) : 0);
      plucks.push({
        seconds: secondsAt(event.at),
        until: secondsAt(until),
        staff: note.staff,
        grace: note.grace !== null,
      });
      if (!wantedPitches(note).every((pitch) => sounds(plan, up, range, note.id, pitch))) {
        missingNotes.push({ note: note.id, bar: bar.number, pass });
      }
    }
    clock = secondsAt(start + value(bar.duration));
  }
  const hurries = changes.flatMap(({ seconds, hand, barIndex }, i): LeverPerformance['hurries'][number][] => {
    const staffs = (staff: number): boolean => (staff === 1) === (hand === 'right');
    const half = leverSeconds / 2 - 1e-6;
    const plays = plucks.some(
      (pluck) =>
        staffs(pluck.staff) &&
        !pluck.grace &&
        pluck.seconds - half < seconds &&
        seconds < Math.max(pluck.seconds + half, pluck.until),
    );
    const sets = changes.some(
      (other, j) => j < i && other.hand === hand && seconds - other.seconds < leverSeconds - 1e-6,
    );
    return [
      ...(plays ? [{ barIndex, with: 'note' as const }] : []),
      ...(sets ? [{ barIndex, with: 'change' as const }] : []),
    ];
  });
  return { missingNotes, hurries, notesPlayed, changesMade: changes.length };
};

const isHeld = (note: Note): boolean => note.tremolo !== null || note.ornament?.kind === 'trill';

const wantedPitches = (note: Note): Wanted[] =>
  [note.harmonic?.string ?? note.pitch, note.ornament?.upper, note.ornament?.lower].filter(
    (pitch) => pitch != null,
  );

const sounds = (
  plan: LeverPlan,
  up: ReadonlySet<string>,
  range: { readonly lowest: Named; readonly highest: Named },
  note: string,
  wanted: Wanted,
): boolean => {
  const string: Named =
    plan.respellings.find((each) => each.note === note && keyNumber(each.from) === keyNumber(wanted))?.to ??
    wanted;
  const place = ({ letter, octave }: Named): number => 7 * octave + 'CDEFGAB'.indexOf(letter);
  if (place(string) < place(range.lowest) || place(string) > place(range.highest)) return false;
  const apart = plan.tuning.exceptions.find((each) => stringName(each.string) === stringName(string));
  const letters: Readonly<Record<string, number>> = plan.tuning.letters;
  const open = apart?.alter ?? letters[string.letter]!;
  const alter = open + (up.has(stringName(string)) ? 1 : 0);
  return keyNumber({ ...string, alter }) === keyNumber(wanted);
};

type Event =
  | { readonly kind: 'change'; readonly at: number; readonly move: LeverPlan['moves'][number] }
  | { readonly kind: 'note'; readonly at: number; readonly note: Note };

/** What happens in a bar: at one time grace notes first, each after its own changes, then changes, then notes. */
const eventsOf = (score: Score, plan: LeverPlan, barIndex: number): Event[] => {
  const orderOf = (note: Note): number => (note.grace === null ? 1000 : note.grace.order);
  const byId = new Map(score.notes.map((note) => [note.id, note]));
  const events: (Event & { readonly order: number })[] = [];
  for (const move of plan.moves) {
    if (move.bar !== barIndex) continue;
    const order = move.graceNote === null ? 1000 : orderOf(byId.get(move.graceNote)!);
    events.push({ kind: 'change', at: value(move.at), move, order: order - 0.5 });
  }
  for (const note of score.notes) {
    if (note.bar !== barIndex || note.role === 'cue' || note.tiedFrom !== null) continue;
    events.push({ kind: 'note', at: value(note.onset), note, order: orderOf(note) });
  }
  return events.sort((a, b) => a.at - b.at || a.order - b.order);
};

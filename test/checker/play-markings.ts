import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { secondsBetween, stopsBefore, value } from './clock.ts';
import type { PrintedMarking } from './printed-markings.ts';

/** A note that the printed markings do not serve when the part is played. */
export interface Unserved {
  readonly note: string;
  readonly bar: string;
  readonly wanted: string;
  readonly pass: number;
}

/** A foot that has to move twice in too little time. */
export interface Hurry {
  readonly bar: string;
  readonly foot: 'left' | 'right';
  readonly seconds: number;
}

export interface Performance {
  readonly missingNotes: readonly Unserved[];
  readonly hurries: readonly Hurry[];
  readonly notesPlayed: number;
}

const LEFT_FOOT = 'DCB';
/** The least time between two moves of one foot (design, hard rule 2). */
const FOOT_REST_SECONDS = 0.25;
const WITHOUT_DISC = ['C1', 'D1', 'G7'];
const SEMITONES: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/**
 * Plays a part as a harpist would who knows nothing but the printed markings, repeats followed. A marking of several
 * pedals of one foot is carried out one pedal after the other, and only a silence gives the time for it.
 *
 * It shares no code with the planner: where each pedal stands is what was last read; a note is served if its string
 * gives its pitch then, and for a double accidental if any string does.
 */
export const playMarkings = (score: Score, markings: readonly PrintedMarking[]): Performance => {
  const missingNotes: Unserved[] = [];
  const hurries: Hurry[] = [];
  let stand = new Map<string, number>();
  let notesPlayed = 0;
  let clock = 0;
  const movedAt = { left: Number.NEGATIVE_INFINITY, right: Number.NEGATIVE_INFINITY };
  const passes = new Map<number, number>();
  for (const [index, barIndex] of score.playOrder.entries()) {
    const bar = score.bars[barIndex]!;
    const pass = (passes.get(barIndex) ?? 0) + 1;
    passes.set(barIndex, pass);
    const start = value(bar.onset);
    const secondsFrom = (at: number): number => clock + secondsBetween(score, start, at);
    for (const { at, printed, notes } of eventsOf(score, markings, barIndex)) {
      const stands = [stand];
      for (const marking of printed) {
        const before = stand;
        stand = new Map([...stand, ...marking.positions]);
        for (const foot of ['left', 'right'] as const) {
          const moved = [...marking.positions].filter(
            ([letter, position]) =>
              LEFT_FOOT.includes(letter) === (foot === 'left') &&
              before.has(letter) &&
              before.get(letter) !== position,
          ).length;
          if (moved === 0 || (at === start && stopsBefore(score, index))) continue;
          const sinceLast = secondsFrom(at) - movedAt[foot];
          // One foot makes the moves of one marking one after the other, in the silence before the next note.
          const needed = (moved - 1) * FOOT_REST_SECONDS;
          const free = moved > 1 ? secondsOfSilence(score, index, at) : 0;
          if (sinceLast < FOOT_REST_SECONDS - 1e-6 || needed > free + 1e-6) {
            hurries.push({ bar: bar.number, foot, seconds: Math.min(sinceLast, free) });
          }
          movedAt[foot] = secondsFrom(at) + needed;
        }
        stands.push(stand);
      }
      for (const note of notes) {
        notesPlayed += 1;
        const possible = note.grace === null ? [stand] : stands;
        const wanted = wantedPitches(note).filter((pitch) => !possible.some((each) => gives(each, pitch)));
        for (const pitch of wanted) {
          missingNotes.push({
            note: note.id,
            bar: bar.number,
            wanted: `${pitch.letter} ${pitch.alter}`,
            pass,
          });
        }
      }
    }
    clock = secondsFrom(start + value(bar.duration));
  }
  return { missingNotes, hurries, notesPlayed };
};

interface Wanted {
  readonly letter: string;
  readonly alter: number;
  readonly octave: number;
}

const wantedPitches = (note: Note): Wanted[] => {
  const plucked: Wanted = note.harmonic?.string ?? note.pitch;
  const neighbours = [note.ornament?.upper, note.ornament?.lower].filter((pitch) => pitch != null);
  return [plucked, ...neighbours].filter(
    ({ letter, octave }) => !WITHOUT_DISC.includes(`${letter}${octave}`) && octave >= 1 && octave <= 7,
  );
};

const gives = (stand: ReadonlyMap<string, number>, { letter, alter }: Wanted): boolean => {
  if (Math.abs(alter) < 2) return stand.get(letter) === alter;
  const pitch = (SEMITONES[letter]! + alter + 24) % 12;
  return [...stand].some(([other, position]) => (SEMITONES[other]! + position + 12) % 12 === pitch);
};

const eventsOf = (score: Score, markings: readonly PrintedMarking[], barIndex: number) => {
  const bar = score.bars[barIndex]!;
  const start = value(bar.onset);
  const events = new Map<number, { at: number; printed: PrintedMarking[]; notes: Note[] }>();
  const open = (at: number) => {
    const key = Math.round(at * 1e6);
    const event = events.get(key) ?? { at, printed: [], notes: [] };
    events.set(key, event);
    return event;
  };
  for (const marking of markings) {
    if (marking.barIndex !== barIndex) continue;
    open(start + ((marking.beat - 1) * 4) / bar.meter.beatUnit).printed.push(marking);
  }
  for (const note of score.notes) {
    if (note.bar === barIndex && note.role !== 'cue' && note.tiedFrom === null)
      open(value(note.onset)).notes.push(note);
  }
  return [...events.values()].sort((a, b) => a.at - b.at);
};

/** From a moment in the bar that is played as number `index`: how long the harp is silent; 0 where a note sounds. */
const secondsOfSilence = (score: Score, index: number, at: number): number => {
  let seconds = 0;
  for (let i = index; i < score.playOrder.length; i += 1) {
    const bar = score.bars[score.playOrder[i]!]!;
    const from = i === index ? at : value(bar.onset);
    const notes = score.notes.filter((note) => note.bar === bar.index && note.role !== 'cue');
    const sounding = notes.filter((note) => value(note.onset) + value(note.duration) > from + 1e-9);
    if (sounding.length > 0) {
      const next = Math.min(...sounding.map((note) => value(note.onset)));
      return next <= from ? (i === index ? 0 : seconds) : seconds + secondsBetween(score, from, next);
    }
    seconds += secondsBetween(score, from, value(bar.onset) + value(bar.duration));
  }
  return Number.POSITIVE_INFINITY;
};

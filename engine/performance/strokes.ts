import { midiOf, type Pitch } from '../music/pitch.ts';
import { add, compare, type Rational, toNumber } from '../music/rational.ts';
import type { Note, Ornament } from '../score/model/note.ts';
import { strokeQuarters } from '../score/tremolo.ts';

/** One of the plucks by which a note is played: seconds after its onset. */
export interface Stroke {
  readonly after: number;
  readonly seconds: number;
  readonly pitch: Pitch;
  readonly implied: boolean;
}

/** Seconds between the notes of a trill (common practice, no source). */
const TRILL_SECONDS = 0.11;

/** Seconds of a short note of a mordent or turn (common practice, no source). */
const ORNAMENT_SECONDS = 0.09;

/** A finger plucks one string no sooner again (common practice, no source). */
const SHORTEST_STROKE_SECONDS = 0.05;

/** A note of any length is played by no more plucks: a file may state lengths of hours. */
const MOST_STROKES = 1000;

/** What a note's strokes depend on beside the note. */
export interface StrokeContext {
  readonly secondsAt: (at: Rational) => number;
  /** End of the written sound, ties counted. */
  readonly release: Rational;
  /** The other note of a tremolo between two. */
  readonly pair: Note | null;
}

/**
 * The plucks of one note: one for a plain note, more for a trill, a tremolo, or an ornament.
 *
 * @returns in order of time; at most 1000
 */
export const strokesOf = (note: Note, place: StrokeContext): readonly Stroke[] => {
  const start = place.secondsAt(note.onset);
  const seconds = place.secondsAt(place.release) - start;
  if (note.tremolo !== null && note.grace === null) return tremoloStrokes(note, place);
  const neighbour = note.ornament?.upper ?? note.ornament?.lower ?? null;
  if (note.ornament === null || neighbour === null) {
    return [{ after: 0, seconds, pitch: note.pitch, implied: false }];
  }
  const { kind, upper, lower } = note.ornament;
  if (kind === 'trill') return alternate([note.pitch, neighbour], seconds);
  const turns = TURNS[kind];
  if (turns !== undefined) {
    const [first, second] = turns.inverted ? [lower, upper] : [upper, lower];
    const turned = [first ?? neighbour, note.pitch, second ?? neighbour, note.pitch];
    if (!turns.delayed) return ornament(turned, note.pitch, seconds);
    const wait = seconds / 2;
    const main: Stroke = { after: 0, seconds: wait, pitch: note.pitch, implied: false };
    const later = ornament(turned, note.pitch, wait);
    return [main, ...later.map((stroke) => ({ ...stroke, after: wait + stroke.after }))];
  }
  const flips = kind === 'shake' ? 2 : 1;
  const pitches = Array.from({ length: flips }, () => [note.pitch, neighbour]).flat();
  return ornament([...pitches, note.pitch], note.pitch, seconds);
};

const TURNS: Readonly<
  Partial<Record<Ornament['kind'], { readonly inverted: boolean; readonly delayed: boolean }>>
> = {
  turn: { inverted: false, delayed: false },
  'inverted-turn': { inverted: true, delayed: false },
  'delayed-turn': { inverted: false, delayed: true },
  'delayed-inverted-turn': { inverted: true, delayed: true },
};

const alternate = (pitches: readonly [Pitch, Pitch], seconds: number): readonly Stroke[] =>
  evenly(seconds, TRILL_SECONDS).map((after, i, all) => ({
    after,
    seconds: (all[i + 1] ?? seconds) - after,
    pitch: pitches[i % 2]!,
    implied: i % 2 === 1,
  }));

/** Short notes, of which the last takes what is left. */
const ornament = (pitches: readonly Pitch[], main: Pitch, seconds: number): readonly Stroke[] => {
  const step = Math.min(ORNAMENT_SECONDS, seconds / pitches.length);
  const last = pitches.length - 1;
  return pitches.map((pitch, i) => ({
    after: i * step,
    seconds: i === last ? seconds - i * step : step,
    pitch,
    implied: midiOf(pitch) !== midiOf(main),
  }));
};

const tremoloStrokes = (note: Note, { secondsAt, release, pair }: StrokeContext): readonly Stroke[] => {
  const start = secondsAt(note.onset);
  const oneAfterAnother = note.tremolo?.kind === 'between' && pair !== null;
  const isSecond = oneAfterAnother && compare(pair.onset, note.onset) < 0;
  // The two notes of a tremolo stand one after the other in time, each for half of the whole.
  const from = isSecond ? secondsAt(pair.onset) : start;
  const until = oneAfterAnother && !isSecond ? secondsAt(add(pair.onset, pair.duration)) : secondsAt(release);
  const written = toNumber(note.duration) * (oneAfterAnother ? 2 : 1);
  const perQuarter = written === 0 ? 0 : (secondsAt(release) - start) / toNumber(note.duration);
  const step = strokeQuarters(written, note.tremolo!.marks) * perQuarter;
  const offset = isSecond ? Math.max(step, SHORTEST_STROKE_SECONDS) : 0;
  const plucks = evenly(
    until - from - offset,
    Math.max(step, SHORTEST_STROKE_SECONDS) * (oneAfterAnother ? 2 : 1),
  );
  return plucks.map((after, i, all) => ({
    after: from - start + offset + after,
    seconds: (all[i + 1] ?? until - from - offset) - after,
    pitch: note.pitch,
    implied: false,
  }));
};

/** Times from 0 until just before `seconds`, `step` apart; always the first. */
const evenly = (seconds: number, step: number): readonly number[] => {
  const count = Math.min(MOST_STROKES, Math.max(1, Math.ceil(seconds / step - 1e-6)));
  return Array.from({ length: count }, (_, i) => i * step);
};

import { group } from '../group.ts';
import { stringOf } from '../harp/profile.ts';
import { letterAtStep, midiOf, stepOf } from '../music/pitch.ts';
import { add, compare, type Rational, rationalKey, toNumber } from '../music/rational.ts';
import { beatLength } from '../score/bars/beats.ts';
import { buildClock } from '../score/bars/clock.ts';
import type { Bar } from '../score/model/bar.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import type { TempoMark } from '../score/model/tempo.ts';
import { notesById } from '../score/notes-by-id.ts';
import { isArpeggiated, isPlucked } from '../score/plucked.ts';
import { findSlidNotes, spellForHarp } from '../sounding/needs.ts';
import { releaseTimes } from '../sounding/ties.ts';
import { listMoments, type Moments } from '../time/moments.ts';
import type { BarDamp, BarTempo, Playback, PlaybackBar, Pluck, SoundingNotehead } from './playback.ts';
import { strokesOf } from './strokes.ts';

/** Seconds between the strings of a broken chord, and at most for the whole of it (common practice, no source). */
const ROLL_SECONDS = 0.045;
const LONGEST_ROLL_SECONDS = 0.4;

/**
 * Tells what is heard of a part, bar by bar: every pluck of notes, broken chords, tremolos, trills and glissandi, and
 * when each notehead sounds. Time in proportion to the plucks.
 */
export const buildPlayback = (score: Score): Playback => {
  const context = openContext(score);
  const plucks = score.bars.map((): Pluck[] => []);
  const heads = score.bars.map((): SoundingNotehead[] => []);
  for (const note of context.notes) {
    const at = context.startOf(note);
    const seconds = context.secondsAt(add(note.onset, note.duration)) - context.secondsAt(note.onset);
    heads[note.bar]!.push({ note: note.id, at, until: at + Math.max(seconds, GRACE_SHOWN_SECONDS) });
    if (isPlucked(note)) plucks[note.bar]!.push(...plucksOf(note, context));
  }
  for (const { bar, pluck } of sweptPlucks(score, context)) plucks[bar]!.push(pluck);
  const tempi = listTempi(score, context.secondsAt);
  const damps = listDamps(score, context.secondsAt);
  return {
    bars: score.bars.map((bar, i) => ({
      ...timeOf(bar, context.secondsAt),
      tempi: tempi[i]!,
      plucks: plucks[i]!.sort((a, b) => a.at - b.at),
      heads: heads[i]!.sort((a, b) => a.at - b.at),
      damps: damps[i]!,
    })),
    playOrder: score.playOrder,
  };
};

/** A grace note is seen for as long. */
const GRACE_SHOWN_SECONDS = 0.1;

/** What is known while listening. */
interface PlaybackContext {
  readonly notes: readonly Note[];
  readonly byId: ReadonlyMap<string, Note>;
  readonly bars: readonly Bar[];
  readonly secondsAt: (at: Rational) => number;
  /** When a note is begun, in seconds from the start of its bar. */
  readonly startOf: (note: Note) => number;
  readonly releaseOf: (note: Note) => Rational;
  /** Seconds by which a note of a broken chord is late. */
  readonly rollOf: (note: Note) => number;
  readonly slid: ReadonlySet<string>;
}

const openContext = (score: Score): PlaybackContext => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  const notes = score.notes.filter((note) => note.role !== 'cue');
  const release = releaseTimes(notes);
  const roll = findRolls(notes, secondsAt);
  return {
    notes,
    byId: notesById(notes),
    bars: score.bars,
    secondsAt,
    startOf: (note) => secondsOfNote(note, moments, secondsAt) - secondsAt(score.bars[note.bar]!.onset),
    releaseOf: (note) => release.get(note.id)!,
    rollOf: (note) => roll.get(note.id) ?? 0,
    slid: findSlidNotes(score),
  };
};

/** Grace notes are played before the onset they share, as the planner has them. */
const secondsOfNote = (note: Note, moments: Moments, secondsAt: (at: Rational) => number): number =>
  note.grace === null ? secondsAt(note.onset) : moments.all[moments.ofNote(note)]!.seconds;

/** A broken chord goes over both staves, from the lowest string up or, where the sign says so, from the highest down. */
const findRolls = (
  notes: readonly Note[],
  secondsAt: (at: Rational) => number,
): ReadonlyMap<string, number> => {
  const broken = notes.filter((note) => isArpeggiated(note) && note.tiedFrom === null && note.grace === null);
  const late = new Map<string, number>();
  for (const chord of group(broken, ({ onset }) => rationalKey(onset)).values()) {
    const [first] = chord;
    const lasts = Math.min(
      ...chord.map((note) => secondsAt(add(note.onset, note.duration)) - secondsAt(note.onset)),
    );
    const step = Math.min(ROLL_SECONDS, Math.min(LONGEST_ROLL_SECONDS, lasts / 2) / chord.length);
    const rising = chord.toSorted((a, b) => midiOf(a.pitch) - midiOf(b.pitch));
    const order = first!.arpeggio === 'down' ? rising.toReversed() : rising;
    order.forEach((note, i) => {
      late.set(note.id, i * step);
    });
  }
  return late;
};

const plucksOf = (note: Note, context: PlaybackContext): Pluck[] => {
  const start = context.startOf(note) + context.rollOf(note);
  const pairId = note.tremolo?.pair ?? null;
  const pair = pairId === null ? null : (context.byId.get(pairId) ?? null);
  const strokes = strokesOf(note, { secondsAt: context.secondsAt, release: context.releaseOf(note), pair });
  return strokes.map(({ after, seconds, pitch, implied }) => {
    const string = note.harmonic !== null && !implied ? note.harmonic.string : pitch;
    const slid = !implied && context.slid.has(note.id);
    return {
      at: start + after,
      seconds,
      string: stringOf(spellForHarp(string) ?? string),
      midi: midiOf(pitch),
      kind: slid ? 'slid' : implied ? 'implied' : 'plucked',
      harmonic: note.harmonic !== null && !implied,
      staff: note.staff,
      note: note.id,
    };
  });
};

/** The strings of each glissando between its notes, evenly in the time from one to the next; they are plucks of their own. */
const sweptPlucks = (score: Score, context: PlaybackContext): { bar: number; pluck: Pluck }[] => {
  const places = new Map(score.sweeps.length === 0 ? [] : context.notes.map(({ id }, place) => [id, place]));
  return score.sweeps.flatMap(({ kind, from, to, bar }) => {
    const [first, last] = [context.byId.get(from), context.byId.get(to)];
    if (kind !== 'glissando' || first === undefined || last === undefined) return [];
    const path = writtenPath(first, last, places.get(from)!, context);
    return path.slice(1).flatMap((next, i) => pluckBetween(path[i]!, next, { bar, first }, context));
  });
};

/** The notes of a glissando from its first to its arrival, with those of its voice that lie on the way. */
const writtenPath = (first: Note, last: Note, place: number, context: PlaybackContext): readonly Note[] => {
  const way = Math.sign(stepOf(last.pitch) - stepOf(first.pitch));
  const path = [first];
  const goesOn = (from: Note, to: Note): boolean =>
    Math.sign(stepOf(to.pitch) - stepOf(from.pitch)) === way &&
    secondsOf(from, context) < secondsOf(to, context);
  for (let i = place + 1; i < context.notes.length; i += 1) {
    const note = context.notes[i]!;
    if (compare(note.onset, last.onset) > 0) break;
    const isOnWay = note.voice === first.voice && note.tiedFrom === null && note.id !== last.id;
    if (isOnWay && goesOn(path.at(-1)!, note) && goesOn(note, last)) path.push(note);
  }
  return [...path, last];
};

const secondsOf = (note: Note, context: PlaybackContext): number =>
  context.startOf(note) + context.secondsAt(context.bars[note.bar]!.onset);

const pluckBetween = (
  from: Note,
  to: Note,
  { bar, first }: { readonly bar: number; readonly first: Note },
  context: PlaybackContext,
): { bar: number; pluck: Pluck }[] => {
  const steps = stepOf(to.pitch) - stepOf(from.pitch);
  const between = Math.max(0, Math.abs(steps) - 1);
  const begins = secondsOf(from, context) - context.secondsAt(context.bars[bar]!.onset);
  const seconds = (secondsOf(to, context) - secondsOf(from, context)) / (between + 1);
  return Array.from({ length: between }, (_, i) => ({
    bar,
    pluck: {
      at: begins + (i + 1) * seconds,
      seconds,
      string: letterAtStep(stepOf(from.pitch) + (i + 1) * Math.sign(steps)),
      midi: null,
      kind: 'swept' as const,
      harmonic: false,
      staff: first.staff,
      note: first.id,
    },
  }));
};

type BarTime = Pick<PlaybackBar, 'seconds' | 'onsetQuarters' | 'durationQuarters' | 'beatQuarters'>;

const timeOf = (bar: Bar, secondsAt: PlaybackContext['secondsAt']): BarTime => ({
  seconds: secondsAt(add(bar.onset, bar.duration)) - secondsAt(bar.onset),
  onsetQuarters: toNumber(bar.onset),
  durationQuarters: toNumber(bar.duration),
  beatQuarters: toNumber(beatLength(bar.meter)),
});

/** The tempi of every bar: the one that holds at its start, and those that begin in it. */
const listTempi = ({ bars, tempo }: Score, secondsAt: PlaybackContext['secondsAt']): BarTempo[][] => {
  let next = 1;
  return bars.map((bar) => {
    for (; next < tempo.length && compare(tempo[next]!.at, bar.onset) <= 0; next += 1);
    const held = { at: bar.onset, quartersPerMinute: tempo[next - 1]!.quartersPerMinute };
    const end = add(bar.onset, bar.duration);
    const begins: Pick<TempoMark, 'at' | 'quartersPerMinute'>[] = [held];
    for (; next < tempo.length && compare(tempo[next]!.at, end) < 0; next += 1) begins.push(tempo[next]!);
    return begins.map(({ at, quartersPerMinute }) => ({
      fromQuarters: toNumber(at),
      at: secondsAt(at) - secondsAt(bar.onset),
      secondsPerQuarter: 60 / quartersPerMinute,
    }));
  });
};

const listDamps = ({ bars, damps }: Score, secondsAt: PlaybackContext['secondsAt']): BarDamp[][] => {
  let next = 0;
  return bars.map((bar, i) => {
    const end = add(bar.onset, bar.duration);
    const isHere = (at: Rational): boolean => i === bars.length - 1 || compare(at, end) < 0;
    const here: BarDamp[] = [];
    for (; next < damps.length && isHere(damps[next]!.at); next += 1) {
      const { at, staff } = damps[next]!;
      here.push({ at: secondsAt(at) - secondsAt(bar.onset), staff });
    }
    return here;
  });
};

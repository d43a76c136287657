import { group } from 'd3-array';
import { stringOf } from '../harp/profile.ts';
import { letterAtStep, midiOf, stepOf } from '../music/pitch.ts';
import { add, compare, type Rational, rationalKey, toNumber } from '../music/rational.ts';
import { buildClock } from '../score/clock.ts';
import type { Bar, Note, Score, TempoMark } from '../score/model.ts';
import { isBroken, isPlucked } from '../score/plucked.ts';
import { findSlidNotes, spellForHarp } from '../sounding/needs.ts';
import { beatLength, listMoments, type Moments } from '../time/moments.ts';
import type { BarDamp, BarSound, BarTempo, Head, Hearing, Pluck } from './hearing.ts';
import { strokesOf } from './strokes.ts';

/** Seconds between the strings of a broken chord, and at most for the whole of it (common practice, no source). */
const ROLL_SECONDS = 0.045;
const LONGEST_ROLL_SECONDS = 0.4;

/**
 * Tells what is heard of a part, bar by bar: every pluck of notes, broken chords, tremolos, trills and glissandi, and
 * when each notehead sounds. Time in proportion to the plucks.
 */
export const hearScore = (score: Score): Hearing => {
  const ear = openEar(score);
  const plucks = score.bars.map((): Pluck[] => []);
  const heads = score.bars.map((): Head[] => []);
  for (const note of ear.notes) {
    const at = ear.startOf(note);
    const seconds = ear.secondsAt(add(note.onset, note.duration)) - ear.secondsAt(note.onset);
    heads[note.bar]!.push({ note: note.id, at, until: at + Math.max(seconds, GRACE_SHOWN_SECONDS) });
    if (isPlucked(note)) plucks[note.bar]!.push(...plucksOf(note, ear));
  }
  for (const { bar, pluck } of sweptPlucks(score, ear)) plucks[bar]!.push(pluck);
  const tempi = listTempi(score, ear.secondsAt);
  const damps = listDamps(score, ear.secondsAt);
  return {
    bars: score.bars.map((bar, i) => ({
      ...timeOf(bar, ear.secondsAt),
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
interface Ear {
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

const openEar = (score: Score): Ear => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  const notes = score.notes.filter((note) => note.role !== 'cue');
  const release = findReleases(notes);
  const roll = findRolls(notes, secondsAt);
  return {
    notes,
    byId: new Map(notes.map((note) => [note.id, note])),
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

/** Ends of the written sounds by note id: the first note of a tie lasts as long as all of it. */
const findReleases = (notes: readonly Note[]): ReadonlyMap<string, Rational> => {
  const releases = new Map<string, Rational>();
  const first = new Map<string, string>();
  for (const note of notes) {
    const end = add(note.onset, note.duration);
    const head = note.tiedFrom === null ? note.id : (first.get(note.tiedFrom) ?? note.tiedFrom);
    first.set(note.id, head);
    releases.set(note.id, end);
    const known = releases.get(head);
    if (known === undefined || compare(known, end) < 0) releases.set(head, end);
  }
  return releases;
};

/** A broken chord goes over both staves, from the lowest string up or, where the sign says so, from the highest down. */
const findRolls = (
  notes: readonly Note[],
  secondsAt: (at: Rational) => number,
): ReadonlyMap<string, number> => {
  const broken = notes.filter((note) => isBroken(note) && note.tiedFrom === null && note.grace === null);
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

const plucksOf = (note: Note, ear: Ear): Pluck[] => {
  const start = ear.startOf(note) + ear.rollOf(note);
  const pairId = note.tremolo?.pair ?? null;
  const pair = pairId === null ? null : (ear.byId.get(pairId) ?? null);
  const strokes = strokesOf(note, { secondsAt: ear.secondsAt, release: ear.releaseOf(note), pair });
  return strokes.map(({ after, seconds, pitch, implied }) => {
    const string = note.harmonic !== null && !implied ? note.harmonic.string : pitch;
    const slid = !implied && ear.slid.has(note.id);
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

/** The strings between the ends of each glissando, evenly in its time; its ends are notes of their own. */
const sweptPlucks = (score: Score, ear: Ear): { bar: number; pluck: Pluck }[] =>
  score.sweeps.flatMap(({ kind, from, to, start, end, bar }) => {
    const [first, last] = [ear.byId.get(from), ear.byId.get(to)];
    if (kind !== 'glissando' || first === undefined || last === undefined) return [];
    const steps = stepOf(last.pitch) - stepOf(first.pitch);
    const between = Math.max(0, Math.abs(steps) - 1);
    const begins = ear.secondsAt(start) - ear.secondsAt(ear.bars[bar]!.onset);
    const seconds = (ear.secondsAt(end) - ear.secondsAt(start)) / (between + 1);
    return Array.from({ length: between }, (_, i) => ({
      bar,
      pluck: {
        at: begins + (i + 1) * seconds,
        seconds,
        string: letterAtStep(stepOf(first.pitch) + (i + 1) * Math.sign(steps)),
        midi: null,
        kind: 'swept' as const,
        harmonic: false,
        staff: first.staff,
        note: first.id,
      },
    }));
  });

type BarTime = Pick<BarSound, 'seconds' | 'onsetQuarters' | 'durationQuarters' | 'beatQuarters'>;

const timeOf = (bar: Bar, secondsAt: Ear['secondsAt']): BarTime => ({
  seconds: secondsAt(add(bar.onset, bar.duration)) - secondsAt(bar.onset),
  onsetQuarters: toNumber(bar.onset),
  durationQuarters: toNumber(bar.duration),
  beatQuarters: toNumber(beatLength(bar.meter)),
});

/** The tempi of every bar: the one that holds at its start, and those that begin in it. */
const listTempi = ({ bars, tempo }: Score, secondsAt: Ear['secondsAt']): BarTempo[][] => {
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

const listDamps = ({ bars, damps }: Score, secondsAt: Ear['secondsAt']): BarDamp[][] => {
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

import { bisector } from 'd3-array';
import {
  add,
  compare,
  divide,
  multiply,
  type Rational,
  RationalMap,
  rational,
  rationalKey,
  subtract,
} from '../music/rational.ts';
import { barLength, isCompound, pulseLength } from '../score/bars/beats.ts';
import type { Bar } from '../score/model/bar.ts';
import type { Rest } from '../score/model/between-notes.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { isPlucked } from '../score/plucked.ts';
import { findPhraseEnds } from './phrase-ends.ts';

/**
 * A time at which feet may move: an onset, a pulse of the meter, or in slow music a half or a quarter of one. Grace
 * notes that share an onset are moments of their own, before the note they lead to.
 */
export interface Moment {
  readonly at: Rational;
  /** 0 for the onset itself; grace notes before it count up to -1. */
  readonly grace: number;
  readonly seconds: number;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly onBeat: boolean;
  readonly notesPlucked: number;
  /** A note is plucked here or still sounds within its notated length. */
  readonly handsBusy: boolean;
  /** The hands can wait here: see `findPhraseEnds`. */
  readonly endsPhrase: boolean;
  /** A rest begins here, and nothing sounds. */
  readonly atRest: boolean;
  /** A part of a beat that the notes of this beat divide otherwise, as half a beat among triplets: no player counts it. */
  readonly isUncounted: boolean;
  /** Id of the grace note that is played at this moment; null at an onset. */
  readonly graceNote: string | null;
  /** Key signature of its bar: sharps positive, flats negative. */
  readonly keyFifths: number;
}

/** All moments in order, and where each note stands among them. */
export interface Moments {
  readonly all: readonly Moment[];
  /** The moment at which a note is plucked; for one that is not plucked itself, the first from its onset on. */
  readonly ofNote: (note: Note) => number;
  /** The last moment that lies before a score time; -1 if none does. */
  readonly lastBefore: (at: Rational) => number;
}

/**
 * Lists the moments of a part in printed order.
 *
 * @param secondsAt clock time of a score time
 */
export const listMoments = (score: Score, secondsAt: (at: Rational) => number): Moments => {
  const subOf = graceOrders(score.notes);
  const onsets = new RationalMap<Draft>();
  const graces = new Map<string, Draft>();
  const drafts: Draft[] = [];
  const find = (at: Rational, grace: number): Draft | undefined =>
    grace === 0 ? onsets.get(at) : graces.get(`${rationalKey(at)};${grace}`);
  const open = (at: Rational, grace: number, bar: number): Draft => {
    const known = find(at, grace);
    if (known !== undefined) return known;
    const draft = {
      at,
      grace,
      bar,
      onBeat: false,
      atRest: false,
      isUncounted: false,
      notes: 0,
      graceNote: null,
      index: drafts.length,
    };
    drafts.push(draft);
    if (grace === 0) onsets.set(at, draft);
    else graces.set(`${rationalKey(at)};${grace}`, draft);
    return draft;
  };
  for (const bar of score.bars) {
    for (const at of beatsOf(bar)) open(at, 0, bar.index).onBeat = true;
  }
  for (const note of score.notes) {
    if (!isPlucked(note)) continue;
    const moment = open(note.onset, subOf(note), note.bar);
    moment.notes += 1;
    if (note.grace !== null) moment.graceNote ??= note.id;
  }
  const plucked = drafts.flatMap(({ at, notes }) => (notes > 0 ? [at] : [])).sort(compare);
  for (const bar of score.bars) {
    for (const { at, isCounted } of betweenBeats(bar, plucked, secondsAt))
      open(at, 0, bar.index).isUncounted = !isCounted;
  }
  for (const { onset, bar } of silentRests(score)) open(onset, 0, bar).atRest = true;
  drafts.sort((a, b) => compare(a.at, b.at) || a.grace - b.grace);
  drafts.forEach((draft, i) => {
    draft.index = i;
  });
  const timed = withSeconds(drafts, secondsAt, soundingUntil(score.notes));
  const endsPhrase = findPhraseEnds(score.phrases, timed);
  const all = timed.map(
    (moment, index): Moment => ({
      ...moment,
      endsPhrase: endsPhrase(index),
      keyFifths: score.bars[moment.bar]!.keyFifths,
    }),
  );
  return {
    all,
    ofNote: (note) =>
      find(note.onset, subOf(note))?.index ?? Math.min(all.length - 1, lastBefore(all, note.onset) + 1),
    lastBefore: (at) => lastBefore(all, at),
  };
};

/** The printed rests at which nothing sounds any more: there a marking has a sign to stand at, on a beat or not. */
const silentRests = ({ bars, rests, notes }: Score): readonly Rest[] => {
  const sounding = soundingUntil(notes);
  const isInBar = ({ bar, onset }: Rest): boolean =>
    compare(onset, add(bars[bar]!.onset, bars[bar]!.duration)) < 0;
  return rests
    .toSorted((a, b) => compare(a.onset, b.onset))
    .filter((rest) => !sounding(rest.onset) && isInBar(rest));
};

const beatsOf = (bar: Bar): Rational[] => {
  const end = add(bar.onset, bar.duration);
  const length = pulseLength(bar.meter);
  const beats: Rational[] = [];
  for (let at = firstBeat(bar, length); compare(at, end) < 0; at = add(at, length)) beats.push(at);
  return beats;
};

/** The beats of a pickup are the last of its meter: a bar of an eighth and a quarter begins off the beat. */
const firstBeat = ({ index, onset, duration, meter }: Bar, length: Rational): Rational => {
  const isPickup = index === 0 && compare(duration, barLength(meter)) < 0;
  if (!isPickup) return onset;
  const beats = divide(duration, length);
  const over = subtract(beats, rational(Math.floor(beats.num / beats.den)));
  return add(onset, multiply(over, length));
};

/** A part of a pulse, and whether the notes of that pulse leave it countable. */
interface PulsePart {
  readonly at: Rational;
  readonly isCounted: boolean;
}

/**
 * Where a pulse is long, a foot may move twice within it: at halves from 0.5 s a pulse on, at quarters from 1 s on; in
 * compound meters at thirds and sixths.
 *
 * @param plucked onsets of the notes, in order
 */
const betweenBeats = (
  bar: Bar,
  plucked: readonly Rational[],
  secondsAt: (at: Rational) => number,
): PulsePart[] => {
  const length = pulseLength(bar.meter);
  const parts = (isCompound(bar.meter) ? [3, 6] : [2, 4]).filter((count) => {
    const seconds = secondsAt(add(bar.onset, length)) - secondsAt(bar.onset);
    return seconds / count >= SHORTEST_PART_SECONDS;
  });
  const finest = parts.at(-1);
  if (finest === undefined) return [];
  const step = multiply(length, rational(1, finest));
  const end = add(bar.onset, bar.duration);
  const places: PulsePart[] = [];
  for (let from = bar.onset; compare(from, end) < 0; from = add(from, length)) {
    const until = add(from, length);
    const isCounted = !isDividedOtherwise(from, until, step, plucked);
    for (let at = add(from, step); compare(at, until) < 0 && compare(at, end) < 0; at = add(at, step))
      places.push({ at, isCounted });
  }
  return places;
};

/** Whether notes begin within a pulse, and none of them at a part of it. */
const isDividedOtherwise = (
  from: Rational,
  until: Rational,
  step: Rational,
  plucked: readonly Rational[],
): boolean => {
  let others = 0;
  for (let i = ONSETS.right(plucked, from); i < plucked.length && compare(plucked[i]!, until) < 0; i += 1) {
    if (divide(subtract(plucked[i]!, from), step).den === 1) return false;
    others += 1;
  }
  return others > 0;
};

const ONSETS = bisector<Rational, Rational>(compare);

const SHORTEST_PART_SECONDS = 0.25;

/** Where each note stands among those of its onset: 0 for ordinary notes, grace notes before them up to -1. */
const graceOrders = (notes: readonly Note[]): ((note: Note) => number) => {
  const counts = new RationalMap<number>();
  for (const { grace, onset } of notes) {
    if (grace !== null) counts.set(onset, Math.max(counts.get(onset) ?? 0, grace.order + 1));
  }
  return ({ grace, onset }) => (grace === null ? 0 : grace.order - counts.get(onset)!);
};

/** Time taken by one grace note, in seconds (common practice, no source). */
const GRACE_SECONDS = 0.1;

/** Grace notes take their time before the onset, squeezed where the music before leaves less. */
const withSeconds = (
  sorted: readonly Draft[],
  secondsAt: (at: Rational) => number,
  sounding: (at: Rational) => boolean,
): Omit<Moment, 'endsPhrase' | 'keyFifths'>[] => {
  let onsetBefore = Number.NEGATIVE_INFINITY;
  let room = 0;
  let inGroup = false;
  return sorted.map(({ at, grace, bar, onBeat, atRest, isUncounted, notes, graceNote }) => {
    const onset = secondsAt(at);
    if (grace < 0 && !inGroup) room = Math.min(GRACE_SECONDS, (onset - onsetBefore) / (1 - grace));
    inGroup = grace < 0;
    if (!inGroup) onsetBefore = onset;
    const seconds = inGroup ? onset + grace * room : onset;
    return {
      at,
      grace,
      seconds,
      bar,
      onBeat,
      notesPlucked: notes,
      handsBusy: notes > 0 || sounding(at),
      atRest: atRest && notes === 0,
      isUncounted: isUncounted && notes === 0 && !atRest,
      graceNote,
    };
  });
};

/**
 * Whether some note that began before a score time still sounds, or is held on there by a tie; asked in ascending order
 * of time.
 */
const soundingUntil = (notes: readonly Note[]): ((at: Rational) => boolean) => {
  const tiedOn = new Set(notes.map(({ tiedFrom }) => tiedFrom));
  let next = 0;
  let end: Rational | null = null;
  let tiedEnd: Rational | null = null;
  return (at) => {
    for (; next < notes.length && compare(notes[next]!.onset, at) < 0; next += 1) {
      const { id, role, onset, duration } = notes[next]!;
      if (role === 'cue') continue;
      const release = add(onset, duration);
      end = laterOf(end, release);
      if (tiedOn.has(id)) tiedEnd = laterOf(tiedEnd, release);
    }
    return (end !== null && compare(end, at) > 0) || (tiedEnd !== null && compare(tiedEnd, at) >= 0);
  };
};

const laterOf = (a: Rational | null, b: Rational): Rational => (a === null || compare(b, a) > 0 ? b : a);

interface Draft {
  readonly at: Rational;
  readonly grace: number;
  readonly bar: number;
  onBeat: boolean;
  atRest: boolean;
  isUncounted: boolean;
  notes: number;
  graceNote: string | null;
  /** Place among the moments, once they are sorted. */
  index: number;
}

const lastBefore = (all: readonly Moment[], at: Rational): number => byTime.left(all, at) - 1;

const byTime = bisector((moment: Moment, at: Rational) => compare(moment.at, at));

import { bisector } from 'd3-array';
import { add, compare, type Rational, RationalMap } from '../music/rational.ts';
import { goneBefore } from '../score/bars/counts.ts';
import type { Rest } from '../score/model/between-notes.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { isPlucked } from '../score/plucked.ts';
import { type MomentDraft, MomentDrafts } from './moment-drafts.ts';
import { beatsOf, betweenBeats, divides } from './moment-places.ts';
import { MOMENTS_IN_PAUSE, PAUSE_STEP_SECONDS, type PauseMoment, pausesBefore } from './pauses.ts';
import { findPhraseEnds } from './phrase-ends.ts';
import { soundingUntil } from './sounding-until.ts';

/**
 * A time at which feet may move: an onset, a pulse of the meter, or in slow music a half or a quarter of one. Grace
 * notes that share an onset are moments of their own, before the note they lead to. A pause between movements has moments too,
 * which come before all that is played from its place on.
 */
export interface Moment {
  readonly at: Rational;
  /** 0 for the onset itself; grace notes before it count up to -1. */
  readonly grace: number;
  readonly seconds: number;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly onBeat: boolean;
  /** At half of a beat, in compound meters at a third, and not on it: as easy to count as the beats. */
  readonly isDivision: boolean;
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
  /** Null while the part is played. */
  readonly pause: PauseMoment | null;
  /** Key signature of its bar: sharps positive, flats negative. */
  readonly keyFifths: number;
}

/** Whether a marking may be printed at a moment: before grace notes or in a pause it stands at the onset that follows. */
export const isPlace = ({ grace, pause }: Moment): boolean => grace === 0 && pause === null;

/** All moments in order, and where each note stands among them. */
export interface Moments {
  readonly all: readonly Moment[];
  /** The moment at which a note is plucked; for one that is not plucked itself, the first from its onset on. */
  readonly ofNote: (note: Note) => number;
  /** The first moment from a score time on at which the part is played: none of a pause. */
  readonly firstFrom: (at: Rational) => number;
  /** The last moment that lies before a score time; -1 if none does. */
  readonly lastBefore: (at: Rational) => number;
}

/**
 * The moment of a score time at which something may be changed by hand or foot: none of a grace note, which stands before
 * the onset that it shares; -1 where there is none.
 *
 * @param placeInPause which of a pause's moments serves, where the time falls into one
 */
export const momentAt = (at: Rational, placeInPause: number, { all, lastBefore }: Moments): number => {
  let moment = lastBefore(at) + 1;
  if (moment < all.length && all[moment]!.pause !== null) return moment + placeInPause;
  while (moment < all.length && all[moment]!.grace < 0) moment += 1;
  return moment < all.length && compare(all[moment]!.at, at) === 0 ? moment : -1;
};

/**
 * Lists the moments of a part in printed order.
 *
 * @param secondsAt clock time of a score time
 */
export const listMoments = (score: Score, secondsAt: (at: Rational) => number): Moments => {
  const subOf = graceOrders(score.notes);
  const drafts = new MomentDrafts();
  const gone = goneBefore(score);
  for (const bar of score.bars) {
    for (const at of beatsOf(bar, gone[bar.index]!)) drafts.open(at, 0, bar.index).onBeat = true;
  }
  for (const note of score.notes) {
    if (!isPlucked(note)) continue;
    const moment = drafts.open(note.onset, subOf(note), note.bar);
    moment.notesPlucked += 1;
    if (note.grace !== null) moment.graceNote ??= note.id;
  }
  const plucked = drafts.plucked();
  for (const bar of score.bars) {
    for (const { at, isCounted } of betweenBeats(bar, gone[bar.index]!, plucked, secondsAt))
      drafts.open(at, 0, bar.index).isUncounted = !isCounted;
  }
  for (const { onset, bar } of silentRests(score)) drafts.open(onset, 0, bar).atRest = true;
  for (const bar of pausesBefore(score)) drafts.openPause(score.bars[bar]!.onset, bar, MOMENTS_IN_PAUSE);
  const all = finishMoments(score, gone, drafts.inOrder(), secondsAt);
  const firstFrom = (at: Rational): number => {
    let first = lastBefore(all, at) + 1;
    while (first < all.length && all[first]!.pause !== null) first += 1;
    return first;
  };
  return {
    all,
    ofNote: (note) =>
      drafts.find(note.onset, subOf(note))?.index ?? Math.min(all.length - 1, firstFrom(note.onset)),
    firstFrom,
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

/** The moments with all that is known of them. Grace notes take their time before the onset, squeezed where the music before leaves less. */
const finishMoments = (
  score: Score,
  gone: readonly Rational[],
  drafts: readonly MomentDraft[],
  secondsAt: (at: Rational) => number,
): readonly Moment[] => {
  const { notes, phrases, bars } = score;
  const sounding = soundingUntil(notes);
  const endsPhrase = findPhraseEnds(phrases, drafts);
  const reachOf = pauseReaches(score, secondsAt);
  let onsetBefore = Number.NEGATIVE_INFINITY;
  let room = 0;
  let inGroup = false;
  return drafts.map((draft, index): Moment => {
    const { at, grace, pause, bar, onBeat, atRest, isUncounted, notesPlucked, graceNote } = draft;
    const onset = secondsAt(at);
    if (grace < 0 && !inGroup) room = Math.min(GRACE_SECONDS, (onset - onsetBefore) / (1 - grace));
    inGroup = grace < 0;
    if (!inGroup && pause === null) onsetBefore = onset;
    return {
      at,
      grace,
      seconds: inGroup ? onset + grace * room : onset,
      bar,
      onBeat,
      isDivision: !onBeat && divides(bars[bar]!, gone[bar]!, at),
      notesPlucked,
      handsBusy: pause === null && (notesPlucked > 0 || sounding(at)),
      endsPhrase: endsPhrase(index),
      atRest: atRest && notesPlucked === 0,
      isUncounted: isUncounted && notesPlucked === 0 && !atRest,
      graceNote,
      pause: pause === null ? null : { place: pause, reach: reachOf(bar, pause) },
      keyFifths: bars[bar]!.keyFifths,
    };
  });
};

/** By the bar after a pause and the pause's moment, the seconds from there to the next pause as the part is printed. */
const pauseReaches = (
  score: Score,
  secondsAt: (at: Rational) => number,
): ((bar: number, pause: number) => number) => {
  const starts = [...pausesBefore(score)].map((bar) => secondsAt(score.bars[bar]!.onset));
  return (bar, pause) => {
    const from = secondsAt(score.bars[bar]!.onset);
    const until = starts.find((seconds) => seconds > from) ?? Number.POSITIVE_INFINITY;
    return (MOMENTS_IN_PAUSE - pause) * PAUSE_STEP_SECONDS + until - from;
  };
};

const lastBefore = (all: readonly Moment[], at: Rational): number => byTime.left(all, at) - 1;

const byTime = bisector((moment: Moment, at: Rational) => compare(moment.at, at));

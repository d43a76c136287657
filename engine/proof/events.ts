import type { PedalHarpProfile } from '../harp/profile.ts';
import { add, compare, type Rational, rationalKey } from '../music/rational.ts';
import { listMoments } from '../plan/moments.ts';
import { listNeeds, type Need } from '../plan/needs.ts';
import { findSweepSettings } from '../plan/sweep-setting.ts';
import { buildClock } from '../score/clock.ts';
import type { Score } from '../score/model.ts';

/** A need and when its string is plucked, in seconds from the start of its bar. */
export interface TimedNeed {
  readonly need: Need;
  readonly seconds: number;
}

/**
 * What happens at one score time in a bar. Grace notes come before the notes of the onset; whether a marking at the
 * onset is meant before or behind them a file does not tell for sure, so they are served if either serves them.
 */
export interface OnsetEvents {
  readonly at: Rational;
  /** Seconds from the start of the bar to the first thing that is played here. */
  readonly seconds: number;
  /** Indices into the score's markings, in the order of the file. */
  readonly markings: readonly number[];
  readonly graces: readonly TimedNeed[];
  readonly notes: readonly TimedNeed[];
}

/** What happens in each bar, once however often it is played. */
export interface BarEvents {
  readonly onsets: readonly OnsetEvents[];
  /** Seconds that the bar takes. */
  readonly seconds: number;
}

/** Sorts what the notes need and what the markings say by bar and score time. */
export const listBarEvents = (score: Score, profile: PedalHarpProfile): readonly BarEvents[] => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  // The markings are what is to be proved: glissandi are judged by the notes and the key alone.
  const sweeps = findSweepSettings({ ...score, markings: [] }, []);
  const needs = listNeeds(score, profile, sweeps).needs;
  const bars = score.bars.map(() => new Map<string, OpenOnset>());
  const open = (bar: number, at: Rational): OpenOnset => {
    const key = rationalKey(at);
    const onset = bars[bar]!.get(key) ?? { at, markings: [], graces: [], notes: [] };
    bars[bar]!.set(key, onset);
    return onset;
  };
  const inBar = (bar: number, seconds: number): number => seconds - secondsAt(score.bars[bar]!.onset);
  score.markings.forEach((marking, index) => {
    open(barOf(score, marking.bar, marking.at), marking.at).markings.push(index);
  });
  for (const need of needs) {
    const { note } = need;
    const moment = moments.all[moments.ofNote(note)]!;
    const timed = { need, seconds: inBar(note.bar, moment.seconds) };
    const onset = open(note.bar, need.onset);
    if (note.grace === null) onset.notes.push(timed);
    else onset.graces.push(timed);
  }
  return score.bars.map((bar, index) => ({
    onsets: [...bars[index]!.values()]
      .sort((a, b) => compare(a.at, b.at))
      .map((onset) => ({ ...onset, seconds: firstSeconds(onset, inBar(index, secondsAt(onset.at))) })),
    seconds: inBar(index, secondsAt(add(bar.onset, bar.duration))),
  }));
};

interface OpenOnset {
  readonly at: Rational;
  readonly markings: number[];
  readonly graces: TimedNeed[];
  readonly notes: TimedNeed[];
}

const firstSeconds = ({ graces }: OpenOnset, onset: number): number =>
  graces.reduce((first, grace) => Math.min(first, grace.seconds), onset);

/** The bar that a marking is printed in, or the one its offset leads to. */
const barOf = (score: Score, printed: number, at: Rational): number => {
  const bar = score.bars[printed]!;
  if (compare(bar.onset, at) <= 0 && compare(at, add(bar.onset, bar.duration)) <= 0) return printed;
  return Math.max(
    0,
    score.bars.findLastIndex((each) => compare(each.onset, at) <= 0),
  );
};

import type { PedalHarpProfile } from '../harp/profile.ts';
import { NO_SCORDATURA } from '../harp/scordatura.ts';
import type { Letter } from '../music/pitch.ts';
import { add, compare, type Rational, rationalKey } from '../music/rational.ts';
import { buildClock } from '../score/bars/clock.ts';
import type { Score } from '../score/model/score.ts';
import { respellClashingOrnaments } from '../sounding/clashing-ornaments.ts';
import { findSweepSettings } from '../sounding/glissando-settings.ts';
import { listNeeds, type Need } from '../sounding/needs.ts';
import { listMoments, type Moments } from '../time/moments.ts';

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

/** What the notes of a part need, bar by bar, before any marking is looked at. */
export interface PartEvents {
  readonly moments: Moments;
  readonly bars: readonly BarEvents[];
  /** Seconds from the start of a bar to a score time. */
  readonly secondsIn: (bar: number, at: Rational) => number;
}

/** Sorts what the notes need by bar and score time. */
export const listPartEvents = (score: Score, profile: PedalHarpProfile): PartEvents => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  // The markings are what is to be proved: glissandi are judged by the notes and the key alone.
  const sweeps = findSweepSettings({ ...score, markings: [] }, []);
  const { needs } = respellClashingOrnaments(
    listNeeds(score, profile, sweeps),
    moments,
    profile,
    NO_SCORDATURA,
  );
  return sortNeeds(score, needs, moments);
};

/** Needs by bar and score time. */
export const sortNeeds = (score: Score, needs: readonly Need[], moments: Moments): PartEvents => {
  const secondsAt = buildClock(score.tempo);
  const bars = score.bars.map(() => new Map<string, OpenOnset>());
  const barStarts = score.bars.map((bar) => secondsAt(bar.onset));
  const secondsIn = (bar: number, at: Rational): number => secondsAt(at) - barStarts[bar]!;
  for (const need of needs) {
    const { startNote: first } = need;
    const moment = moments.all[moments.ofNote(first)]!;
    // A turn after its note is played while that sounds.
    const isLater = compare(need.onset, first.onset) > 0;
    const seconds = isLater ? secondsAt(need.onset) : moment.seconds;
    const timed = { need, seconds: seconds - barStarts[first.bar]! };
    const onset = openOnset(bars[first.bar]!, need.onset);
    if (first.grace === null) onset.notes.push(timed);
    else onset.graces.push(timed);
  }
  return {
    moments,
    bars: score.bars.map((bar, index) => ({
      onsets: [...bars[index]!.values()]
        .sort((a, b) => compare(a.at, b.at))
        .map((onset) => ({
          ...onset,
          markings: [],
          seconds: firstSeconds(onset, secondsIn(index, onset.at)),
        })),
      seconds: secondsIn(index, add(bar.onset, bar.duration)),
    })),
    secondsIn,
  };
};

/** The needs of some pedals alone. Onsets with grace notes stay, for the time at which they begin. */
export const keepLetters = (part: PartEvents, letters: readonly Letter[]): PartEvents => {
  const isKept = ({ need }: TimedNeed): boolean => letters.includes(need.letter);
  return {
    ...part,
    bars: part.bars.map((bar) => ({
      ...bar,
      onsets: bar.onsets
        .filter(({ graces, notes }) => graces.length > 0 || notes.some(isKept))
        .map((onset) => ({
          ...onset,
          graces: onset.graces.filter(isKept),
          notes: onset.notes.filter(isKept),
        })),
    })),
  };
};

/** The events of a part with the markings of a score among them, each where it stands. */
export const placeMarkings = (score: Score, part: PartEvents): readonly BarEvents[] => {
  const byBar = new Map<number, Map<string, number[]>>();
  score.markings.forEach((marking, index) => {
    const bar = barOf(score, marking.bar, marking.at);
    const key = rationalKey(marking.at);
    const inBar = byBar.get(bar) ?? new Map<string, number[]>();
    byBar.set(bar, inBar.set(key, [...(inBar.get(key) ?? []), index]));
  });
  if (byBar.size === 0) return part.bars;
  return part.bars.map((bar, index) => {
    const markings = byBar.get(index);
    return markings === undefined ? bar : { ...bar, onsets: withMarkings(score, part, index, markings) };
  });
};

const withMarkings = (
  score: Score,
  part: PartEvents,
  bar: number,
  markings: ReadonlyMap<string, readonly number[]>,
): readonly OnsetEvents[] => {
  const unmet = new Map(markings);
  const onsets = part.bars[bar]!.onsets.map((onset): OnsetEvents => {
    const key = rationalKey(onset.at);
    const here = unmet.get(key);
    unmet.delete(key);
    return here === undefined ? onset : { ...onset, markings: here };
  });
  const alone = [...unmet.values()].map((here): OnsetEvents => {
    const { at } = score.markings[here[0]!]!;
    return { at, seconds: part.secondsIn(bar, at), markings: here, graces: [], notes: [] };
  });
  return alone.length === 0 ? onsets : [...onsets, ...alone].sort((a, b) => compare(a.at, b.at));
};

interface OpenOnset {
  readonly at: Rational;
  readonly graces: TimedNeed[];
  readonly notes: TimedNeed[];
}

const openOnset = (onsets: Map<string, OpenOnset>, at: Rational): OpenOnset => {
  const key = rationalKey(at);
  const onset = onsets.get(key) ?? { at, graces: [], notes: [] };
  onsets.set(key, onset);
  return onset;
};

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

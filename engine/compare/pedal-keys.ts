import { type KeyMode, tonicOf } from '../music/key-names.ts';
import { midiOf } from '../music/pitch.ts';
import { createTrials } from '../pedals/offers/trials.ts';
import type { PlanOptions } from '../pedals/options.ts';
import type { Score } from '../score/model/score.ts';
import { type InEitherWay, joinWays } from './both-ways.ts';
import { goAlike, type HarpVerdict, ratePedalPlan } from './compare.ts';
import { type Comparing, finishComparing } from './comparison-steps.ts';
import { transposeScore, transposingInterval } from './transpose.ts';

/** A part on the pedal harp in some key. */
export interface PedalKey {
  /** Up where positive; 0 for the written key. */
  readonly semitones: number;
  /** The key signature at the beginning: sharps positive, flats negative. */
  readonly keyFifths: number;
  readonly pedal: HarpVerdict;
}

/**
 * How a part goes on the pedal harp in other keys, the written one among them, the best first: by the places that are not
 * playable, then by the moves of pedals, then by the flats of the key, since strings are longer with their pedals up and
 * ring fuller (H. Berlioz, *Traité d'instrumentation*, La Harpe), and then by the distance.
 *
 * A key that is reached both up and down is told once. Plans every key. Strings that the user chose for notes, and pins, hold for the written key alone.
 */
export const comparePedalKeys = (
  score: Score,
  options: PlanOptions,
  maxSemitones: number,
): readonly InEitherWay<PedalKey>[] => finishComparing(comparingPedalKeys(score, options, maxSemitones));

/** The same, key by key. */
export function* comparingPedalKeys(
  score: Score,
  options: PlanOptions,
  maxSemitones: number,
): Comparing<readonly InEitherWay<PedalKey>[]> {
  const written = score.bars[0]?.keyFifths ?? 0;
  const free = createTrials(score, { ...options, respelled: new Map(), pins: [] });
  const of = 2 * maxSemitones + 1;
  const keys: PedalKey[] = [];
  for (let semitones = -maxSemitones; semitones <= maxSemitones; semitones += 1) {
    yield { done: keys.length, of };
    const interval = transposingInterval(written, semitones);
    const plan =
      semitones === 0
        ? createTrials(score, options).planWith([])
        : free.planAs(transposeScore(score, interval));
    const keyFifths = semitones === 0 ? written : written + interval.fifths;
    keys.push({ semitones, keyFifths, pedal: ratePedalPlan(plan, options.profile.name) });
  }
  return joinWays(keys.sort(compareKeys), (a, b) => goAlike(a.pedal, b.pedal));
}

const compareKeys = (a: PedalKey, b: PedalKey): number =>
  a.pedal.stops - b.pedal.stops ||
  a.pedal.changes - b.pedal.changes ||
  a.keyFifths - b.keyFifths ||
  Math.abs(a.semitones) - Math.abs(b.semitones);

/**
 * The mode that the file states, else whether the part is in major or minor: by its last bass note, where that is the first note of one of the keys with the
 * signature (common practice, no source).
 */
export const readMode = ({ notes, bars, keyMode }: Score): KeyMode => {
  if (keyMode !== null) return keyMode;
  const played = notes.filter(({ role, tiedFrom }) => role === 'played' && tiedFrom === null);
  const last = played.filter(({ bar }) => bar === played.at(-1)?.bar);
  const bass = last.reduce<(typeof last)[number] | null>(
    (low, note) => (low === null || midiOf(note.pitch) < midiOf(low.pitch) ? note : low),
    null,
  );
  if (bass === null) return null;
  const { keyFifths } = bars[bass.bar]!;
  const isTonic = (mode: 'major' | 'minor'): boolean => {
    const { letter, alter } = tonicOf(keyFifths, mode);
    return bass.pitch.letter === letter && bass.pitch.alter === alter;
  };
  return isTonic('major') ? 'major' : isTonic('minor') ? 'minor' : null;
};

import { group } from '../../group.ts';
import type { LeverHarpProfile } from '../../harp/lever-profile.ts';
import { type OpenTuning, openAlter } from '../../harp/open-tuning.ts';
import { isFixedString, isInRange, stringOf } from '../../harp/profile.ts';
import { isSamePitch, letterAtStep, midiOf, type Pitch, stepOf } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { type Need, writtenString } from '../../sounding/needs.ts';
import type { PlacedNeed } from '../../sounding/placed-needs.ts';
import type { Respelling } from '../../sounding/respelling.ts';
import type { PitchNeed } from './asked.ts';

/**
 * A pitch with the string that gives it. `position` is the lever's: 0 down, 1 up; so that what the pedal planner works
 * out along the music for positions serves levers too.
 */
export interface LeverNeed extends Need {
  readonly position: 0 | 1;
  /** What the string gives then, in semitones above the natural of its letter. */
  readonly alter: number;
}

/** A need at one moment; a trill or a glissando needs its string at every moment of its span. */
export interface PlacedLeverNeed extends PlacedNeed {
  readonly need: LeverNeed;
}

/** Which strings give the pitches of a piece in one tuning, and which pitches none gives. */
export interface StringChoice {
  readonly needs: readonly LeverNeed[];
  readonly respellings: readonly Respelling[];
  /** Notes on the strings that the user chose for them. */
  readonly chosenByUser: readonly Respelling[];
  /** Pitches that an ornament brings in and the rule plays on another string, by the note that has it. */
  readonly ornamentRespellings: readonly Respelling[];
  readonly outOfRange: readonly PitchNeed[];
  readonly microtones: readonly PitchNeed[];
  readonly notInTuning: readonly PitchNeed[];
}

/**
 * Gives every pitch its string.
 *
 * The rule: a pitch is played as it is written, or on the string that the user chose, where that string gives it with
 * its lever down or up. Else the nearest other string that gives it takes it, of two as near the one to which its
 * accidental leans; a string that is plucked at that time or that sounds at another pitch then is passed over. So only
 * notes are respelled that could not be played otherwise. A glissando stays on the strings it sweeps over.
 */
export const chooseStrings = (
  asked: readonly PitchNeed[],
  tuning: OpenTuning,
  profile: LeverHarpProfile,
): StringChoice => {
  const lever = (pitch: Pitch): 0 | 1 | null => leverFor(pitch, tuning, profile);
  const written = asked.map((each) => ({ each, position: lever(each.pitch) }));
  const isTaken = stringsInUse(written.filter(({ position }) => position !== null).map(({ each }) => each));
  const needs: LeverNeed[] = [];
  const respellings: Respelling[] = [];
  const chosenByUser: Respelling[] = [];
  const ornamentRespellings: Respelling[] = [];
  const unmet: PitchNeed[] = [];
  const pluck = (each: PitchNeed, pitch: Pitch, position: 0 | 1): void => {
    const { note, startNote: first, kind, onset, heldUntil, release } = each;
    const { letter, octave, alter } = pitch;
    needs.push({ letter, octave, alter, position, note, startNote: first, kind, onset, heldUntil, release });
  };
  for (const { each, position } of written) {
    if (position !== null) {
      pluck(each, each.pitch, position);
      if (isOfUser(each))
        chosenByUser.push({ note: each.note.id, from: writtenString(each.note), to: each.pitch });
      continue;
    }
    const other =
      each.kind === 'swept'
        ? undefined
        : otherLeverStrings(each.pitch).find((pitch) => lever(pitch) !== null && !isTaken(pitch, each));
    if (other === undefined) {
      unmet.push(each);
      continue;
    }
    pluck(each, other, lever(other)!);
    const told = each.kind === 'implied' ? ornamentRespellings : respellings;
    const from = isOfUser(each) ? writtenString(each.note) : each.pitch;
    told.push({ note: each.note.id, from, to: other });
  }
  return { needs, respellings, chosenByUser, ornamentRespellings, ...sortUnserved(unmet, profile) };
};

/** All notes that are played on a string of another name, by the user's choice or by the rule. */
export const listRespellings = ({ chosenByUser, respellings }: StringChoice): readonly Respelling[] => [
  ...chosenByUser,
  ...respellings,
];

const isOfUser = ({ kind, note, pitch }: PitchNeed): boolean =>
  (kind === 'plucked' || kind === 'slid') && !isSamePitch(pitch, writtenString(note));

/** The lever's place that makes a string give the pitch: 0 down, 1 up; null where neither does. */
export const leverFor = (pitch: Pitch, tuning: OpenTuning, profile: LeverHarpProfile): 0 | 1 | null => {
  const string = stringOf(pitch);
  if (!isInRange(profile, string)) return null;
  const raised = pitch.alter - openAlter(tuning, string);
  if (raised === 0) return 0;
  return raised === 1 && !isFixedString(profile, string) ? 1 : null;
};

const sortUnserved = (
  unmet: readonly PitchNeed[],
  profile: LeverHarpProfile,
): Pick<StringChoice, 'outOfRange' | 'microtones' | 'notInTuning'> => {
  const isMicrotone = ({ pitch }: PitchNeed): boolean => !Number.isInteger(pitch.alter);
  const isOutside = ({ pitch }: PitchNeed): boolean => !isInRange(profile, stringOf(pitch));
  return {
    microtones: unmet.filter(isMicrotone),
    outOfRange: unmet.filter((each) => !isMicrotone(each) && isOutside(each)),
    notInTuning: unmet.filter((each) => !isMicrotone(each) && !isOutside(each)),
  };
};

/** No string three letters away can be stretched to a pitch: a tuning reaches from flat to sharp, a lever a semitone. */
const FARTHEST_STEPS = 3;

/** The pitch as other strings would be called that give it, the nearest first. */
export const otherLeverStrings = (pitch: Pitch): Pitch[] => {
  const midi = midiOf(pitch);
  const direction = pitch.alter < 0 ? -1 : 1;
  return Array.from({ length: 2 * FARTHEST_STEPS }, (_, i) => {
    const steps = (Math.floor(i / 2) + 1) * (i % 2 === 0 ? direction : -direction);
    const string = letterAtStep(stepOf(pitch) + steps);
    return { ...string, alter: midi - midiOf({ ...string, alter: 0 }) };
  }).filter(({ alter }) => alter >= -1 && alter <= 2);
};

/** Whether a string is plucked at a time, or sounds then at another pitch. */
const stringsInUse = (asked: readonly PitchNeed[]): ((pitch: Pitch, at: PitchNeed) => boolean) => {
  const byString = group(asked, (each) => stepOf(each.pitch));
  return (pitch, { onset, heldUntil }) =>
    (byString.get(stepOf(pitch)) ?? []).some(
      (other) =>
        (compare(other.onset, onset) <= 0 || compare(other.onset, heldUntil) < 0) &&
        (compare(other.onset, onset) >= 0 ||
          (compare(other.release, onset) > 0 && !isSamePitch(other.pitch, pitch))),
    );
};

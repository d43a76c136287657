import type { FindingCode } from '../findings/catalogue.ts';
import type { Finding } from '../findings/model.ts';
import { group } from '../group.ts';
import type { HarpString } from '../harp/profile.ts';
import type { Position } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import { isNonEmpty } from '../non-empty.ts';
import type { Failure, MarkingPlayback } from '../proof/marking-playback.ts';
import type { FixPlace, MarkingFix } from '../proof/model.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
import { placeAt } from './judged-change.ts';
import type { StatedPedal, WrongSound } from './model.ts';

/** Finds the notes that go wrong by something that was written, or for want of something. */
export interface FailureSearch {
  /** Those that a pedal of a marking spoils; notes that no plan can serve are nobody's fault. */
  readonly blamedOn: (marking: number, letter: Letter) => readonly WrongSound[];
  /** The first note that goes wrong for want of something. */
  readonly wanting: (wanted: Wanted) => readonly WrongSound[];
}

/** What a string gives where its pedal or lever stands so. */
type SoundOfString = (string: HarpString, stands: Position) => Pitch;

/** More are not told. */
const MOST_TOLD = 2;

/** @param plan of the notes alone: what it cannot serve is not judged */
export const searchFailures = (
  score: Score,
  { failures, unstated }: MarkingPlayback,
  { findings }: { readonly findings: readonly Pick<Finding<FindingCode>, 'severity' | 'notes'>[] },
  soundOfString: SoundOfString,
): FailureSearch => {
  const unplayable = new Set(
    findings.filter(({ severity }) => severity === 'stop').flatMap(({ notes }) => notes),
  );
  const playable = withNeeds(failures, ({ note }) => !unplayable.has(note.id));
  const toldOf = (found: readonly Failure[]): readonly WrongSound[] =>
    [...group(found, ({ wanted }) => wanted).values()].slice(0, MOST_TOLD).map((alike) => {
      const needs = inPrintedOrder(alike);
      return {
        ...soundOf(score, needs[0]!, alike[0].stands, soundOfString),
        more: moreOf(score, needs),
      };
    });
  return {
    blamedOn: (marking, letter) =>
      toldOf(playable.filter((each) => each.marking === marking && each.letter === letter)),
    wanting: ({ letter, position, from }) => {
      const isIts = (need: Need): boolean =>
        need.letter === letter && need.position === position && compare(need.onset, from) >= 0;
      const [first] = withNeeds(playable, isIts);
      if (first !== undefined) return toldOf([first]);
      return unstated
        .filter(isIts)
        .slice(0, 1)
        .map((need) => soundOf(score, need, null, soundOfString));
    },
  };
};

/** Failures with some of their needs alone; without those that have none of them. */
const withNeeds = (failures: readonly Failure[], isMeant: (need: Need) => boolean): readonly Failure[] =>
  failures.flatMap((failure) => {
    const needs = failure.needs.filter(isMeant);
    return isNonEmpty(needs) ? [{ ...failure, needs }] : [];
  });

/** A position that is wanted of a pedal, or of a lever. */
export interface Wanted extends StatedPedal {
  /** Notes before this are served by something else. */
  readonly from: Rational;
}

/** Which position a fix gives to which pedal, and from when on; null where it only takes something out. */
export const wantedBy = (
  score: Score,
  fix: MarkingFix | undefined,
  { letter, position }: StatedPedal,
): Wanted | null => {
  switch (fix?.kind) {
    case 'add':
      return { letter: fix.letter, position: fix.position, from: fix.at };
    case 'rename':
      return { letter: fix.to, position: fix.position, from: score.markings[fix.marking]!.at };
    case 'move':
    case 'move-marking':
      return { letter, position, from: fix.at };
    default:
      return null;
  }
};

const inPrintedOrder = (failures: readonly Failure[]): readonly Need[] =>
  failures.flatMap(({ needs }) => needs).toSorted((a, b) => compare(a.onset, b.onset));

/** The notes after the first of those that go wrong. */
const moreOf = (score: Score, needs: readonly Need[]): WrongSound['more'] => {
  const notes = new Set(needs.map(({ note }) => note.id)).size - 1;
  return notes === 0 ? null : { notes, last: placeOf(score, needs.at(-1)!) };
};

/** What goes wrong for several reasons, as one tells it. */
export const joinSounds = (...sounds: readonly (readonly WrongSound[])[]): readonly WrongSound[] =>
  sounds.flat().toSorted((a, b) => compare(a.place.at, b.place.at));

const placeOf = (score: Score, { note: { bar }, onset }: Need): FixPlace => placeAt(score, bar, onset);

const soundOf = (
  score: Score,
  need: Need,
  stands: Position | null,
  soundOfString: SoundOfString,
): WrongSound => ({
  pitch: need.note.pitch,
  place: placeOf(score, need),
  instead: stands === null ? null : soundOfString({ letter: need.letter, octave: need.octave }, stands),
  more: null,
});

import type { Finding } from '../findings/model.ts';
import type { HarpString } from '../harp/profile.ts';
import type { Position } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Failure, MarkingPlayback } from '../proof/marking-playback.ts';
import type { MarkingFix } from '../proof/model.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import type { Need } from '../sounding/needs.ts';
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
  { findings }: { readonly findings: readonly Pick<Finding<string>, 'severity' | 'notes'>[] },
  soundOfString: SoundOfString,
): FailureSearch => {
  const unplayable = new Set(
    findings.filter(({ severity }) => severity === 'stop').flatMap(({ notes }) => notes),
  );
  const playable = failures.filter(({ needs }) => !needs.every(({ note }) => unplayable.has(note.id)));
  const toldOf = (found: readonly Failure[]): readonly WrongSound[] =>
    found.slice(0, MOST_TOLD).map(({ needs, stands }) => soundOf(score, needs[0]!, stands, soundOfString));
  return {
    blamedOn: (marking, letter) =>
      toldOf(playable.filter((each) => each.marking === marking && each.letter === letter)),
    wanting: ({ letter, position, from }) => {
      const isIts = (need: Need): boolean =>
        need.letter === letter && need.position === position && compare(need.onset, from) >= 0;
      const served = playable.filter((each) => each.needs.some(isIts));
      if (served.length > 0) return toldOf(served.slice(0, 1));
      return unstated
        .filter(isIts)
        .slice(0, 1)
        .map((need) => soundOf(score, need, null, soundOfString));
    },
  };
};

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

const soundOf = (
  score: Score,
  { note, letter, octave, onset }: Need,
  stands: Position | null,
  soundOfString: SoundOfString,
): WrongSound => {
  const bar = note.bar;
  return {
    pitch: note.pitch,
    place: { at: onset, bar, beat: beatAt(score.bars[bar]!, onset) },
    instead: stands === null ? null : soundOfString({ letter, octave }, stands),
  };
};

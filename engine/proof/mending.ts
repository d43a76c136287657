import { LETTERS, type Letter } from '../music/pitch.ts';
import { compare, equals, type Rational } from '../music/rational.ts';
import type { Plan } from '../plan/model.ts';
import { beatAt } from '../plan/moments.ts';
import type { Need } from '../plan/needs.ts';
import type { Score } from '../score/model.ts';
import type { Mend, MendPlace } from './model.ts';
import type { Failure } from './play.ts';

/** Proposes changes to markings. */
export interface Mender {
  /** The smallest change that serves the first of the notes; null where their rivals at the same time forbid it. */
  readonly mendFailure: (failure: Failure) => Mend | null;
  /** The full setting with which the part should begin. */
  readonly mendStart: () => Mend;
  /** A better place for a change that comes too late; null where there is none. */
  readonly mendLate: (marking: number, letter: Letter, before: Need) => Mend | null;
  /** Another note that needs the pedal elsewhere at the same time. */
  readonly rivalOf: (need: Need) => Need | undefined;
}

/** @param plan the plan for the notes alone; asked for only where it is needed */
export const startMender = (score: Score, needs: readonly Need[], plan: () => Plan): Mender => {
  const byLetter = new Map(LETTERS.map((letter) => [letter, needs.filter((need) => need.letter === letter)]));
  const placeIn = (bar: number, at: Rational): MendPlace => ({
    at,
    bar,
    beat: beatAt(score.bars[bar]!, at),
  });
  const plannedMove = ({ letter, position, note }: Need) =>
    plan().moves.find(
      (move) => move.letter === letter && move.to === position && move.window.before?.note === note.id,
    );
  const rivalOf = (need: Need): Need | undefined =>
    byLetter
      .get(need.letter)!
      .find(
        (other) =>
          other.position !== need.position &&
          other.kind !== 'swept' &&
          (equals(other.onset, need.onset)
            ? (other.note.grace?.order ?? null) === (need.note.grace?.order ?? null)
            : compare(other.onset, need.heldUntil) < 0 && compare(need.onset, other.heldUntil) < 0),
      );
  return {
    rivalOf,
    mendFailure: (failure) => {
      const { letter, wanted: position, marking, landedIn, whileHeld, servedBefore } = failure;
      const need = failure.needs[0]!;
      if (whileHeld) {
        const end = score.bars.findLast((bar) => compare(bar.onset, need.heldUntil) <= 0)!;
        return { kind: 'move', marking, letter, ...placeIn(end.index, need.heldUntil) };
      }
      if (rivalOf(need) !== undefined) return null;
      if (landedIn !== null)
        return { kind: 'add', letter, position, ...placeIn(landedIn, score.bars[landedIn]!.onset) };
      if (!servedBefore) return { kind: 'alter', marking, letter, position };
      const move = plannedMove(need);
      const place = move === undefined ? placeIn(need.note.bar, need.onset) : placeIn(move.bar, move.at);
      return { kind: 'add', letter, position, ...place };
    },
    mendStart: () => ({
      kind: 'add-setting',
      setting: plan().initial,
      ...placeIn(score.playOrder[0] ?? 0, score.bars[score.playOrder[0] ?? 0]!.onset),
    }),
    mendLate: (marking, letter, before) => {
      const move = plannedMove(before);
      if (move === undefined || equals(move.at, score.markings[marking]!.at)) return null;
      return { kind: 'move', marking, letter, ...placeIn(move.bar, move.at) };
    },
  };
};

/** Where a mend is to be made, in words. */
export const describePlace = (score: Score, { bar, beat }: MendPlace): string => {
  const whole = Math.round((beat.num / beat.den) * 100) / 100;
  return `bar ${score.bars[bar]!.number || bar + 1}, beat ${whole}`;
};

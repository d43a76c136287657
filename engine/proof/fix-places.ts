import { LETTERS, type Letter } from '../music/pitch.ts';
import { add, compare, equals, multiply, type Rational, rational } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import { beatAt, beatLength } from '../score/beats.ts';
import type { Score } from '../score/model.ts';
import type { Need } from '../sounding/needs.ts';
import type { FixPlace } from './model.ts';

/** Where changes of a pedal could be printed. */
export interface FixPlaces {
  /** For a change that a note needs, after the last note that needs the pedal elsewhere; the best first. */
  readonly before: (need: Need) => readonly FixPlace[];
  readonly startOf: (bar: number) => FixPlace;
  readonly at: (at: Rational) => FixPlace;
  /** The next note in the score, not before a time, that needs a pedal in some position. */
  readonly nextNeed: (letter: Letter, position: number, from: Rational) => Need | undefined;
}

/** As many beats before a note as are tried, besides the place that the plan chose. */
const BEATS_TRIED = 2;

/** @param needs in any order */
export const findFixPlaces = (score: Score, needs: readonly Need[], plan: () => Plan): FixPlaces => {
  const byLetter = new Map(
    LETTERS.map((letter) => [
      letter,
      needs.filter((need) => need.letter === letter).sort((a, b) => compare(a.onset, b.onset)),
    ]),
  );
  const placeIn = (bar: number, at: Rational): FixPlace => ({
    at,
    bar,
    beat: beatAt(score.bars[bar]!, at),
  });
  const plannedPlace = ({ letter, position, note }: Need): readonly FixPlace[] => {
    const move = plan().moves.find(
      (each) => each.letter === letter && each.to === position && each.window.before?.note === note.id,
    );
    return move === undefined ? [] : [placeIn(move.bar, move.at)];
  };
  const freeFrom = ({ letter, position, onset }: Need): Rational | null => {
    const last = byLetter
      .get(letter)!
      .findLast((other) => other.position !== position && compare(other.onset, onset) < 0);
    return last === undefined ? null : last.heldUntil;
  };
  return {
    before: (need) => {
      const beats = beatsBefore(score, need, freeFrom(need)).map(([bar, at]) => placeIn(bar, at));
      const found = [...plannedPlace(need), placeIn(need.note.bar, need.onset), ...beats];
      return found.filter(({ at }, i) => found.findIndex((other) => equals(other.at, at)) === i);
    },
    startOf: (bar) => placeIn(bar, score.bars[bar]!.onset),
    at: (at) =>
      placeIn(
        Math.max(
          0,
          score.bars.findLastIndex((bar) => compare(bar.onset, at) <= 0),
        ),
        at,
      ),
    nextNeed: (letter, position, from) =>
      byLetter.get(letter)!.find((need) => need.position === position && compare(need.onset, from) >= 0),
  };
};

/** The last beats before a note, the nearest first, that lie behind a time. */
const beatsBefore = (
  score: Score,
  { onset, note }: Need,
  behind: Rational | null,
): readonly (readonly [bar: number, at: Rational])[] => {
  const found: [number, Rational][] = [];
  for (let bar = note.bar; bar >= 0 && found.length < BEATS_TRIED; bar -= 1) {
    const { onset: start, meter } = score.bars[bar]!;
    const beats = Array.from({ length: meter.beats }, (_, i) =>
      add(start, multiply(rational(i), beatLength(meter))),
    );
    const free = beats.filter((at) => compare(at, onset) < 0 && (behind === null || compare(behind, at) < 0));
    found.push(...free.reverse().map((at): [number, Rational] => [bar, at]));
    if (free.length < beats.length && bar < note.bar) break;
  }
  return found.slice(0, BEATS_TRIED);
};

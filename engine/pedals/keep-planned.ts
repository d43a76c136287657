import type { PositionPin } from '../harp/pin.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { add, compare, type Rational, subtract } from '../music/rational.ts';
import type { Move, Plan } from './model.ts';

/** Some music of a planned part, by score time. */
export interface PlannedStretch {
  readonly from: Rational;
  readonly until: Rational;
}

/**
 * Pins that have the pedals stand through some music as a plan has them stand there, wherever this music now is. So some
 * bars of a long part are planned by themselves while they are written, and the rest of its plan goes on as it was:
 * their moves are the best there are beside what is kept.
 *
 * A note that asks for something else than the plan gives it takes precedence over such a pin, as over any.
 *
 * @param begins where the music begins in the score to be planned, in quarter notes
 * @example
 * // Bar 41 was written anew: a score of bars 38 to 44 alone (of 4/4), the outermost as they were planned.
 * const bar = (number: number) => ({ from: rational(4 * (number - 1)), until: rational(4 * number) });
 * const pins = [...keepAsPlanned(plan, bar(38), rational(0)), ...keepAsPlanned(plan, bar(44), rational(24))];
 * planPedals(bars38To44, { ...DEFAULT_PLAN_OPTIONS, pins });
 */
export const keepAsPlanned = (
  plan: Pick<Plan, 'initial' | 'moves'>,
  stretch: PlannedStretch,
  begins: Rational,
): readonly PositionPin[] =>
  LETTERS.flatMap((letter) => {
    const stays = staysOf(plan, letter, stretch);
    const placed = (at: Rational): Rational => add(subtract(at, stretch.from), begins);
    return stays.map(({ position, from }, i) => ({
      kind: 'position' as const,
      letter,
      position,
      from: placed(from),
      until: placed(stays[i + 1]?.from ?? stretch.until),
    }));
  });

/** The positions of a pedal in a stretch, in order, and from when on. */
const staysOf = (
  { initial, moves }: Pick<Plan, 'initial' | 'moves'>,
  letter: Letter,
  { from, until }: PlannedStretch,
): readonly { readonly position: Move['to']; readonly from: Rational }[] => {
  const own = moves.filter((move) => move.letter === letter);
  const before = own.findLast(({ at }) => compare(at, from) <= 0);
  const within = own.filter(({ at }) => compare(at, from) > 0 && compare(at, until) < 0);
  return [
    { position: before?.to ?? initial[letter], from },
    ...within.map(({ to, at }) => ({ position: to, from: at })),
  ];
};

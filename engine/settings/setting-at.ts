import { type Setting, settingFrom } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { type Rational, toNumber } from '../music/rational.ts';

/** What of a plan tells where the pedals stand. */
export interface PedalCourse {
  readonly initial: Setting;
  readonly moves: readonly { readonly letter: Letter; readonly to: Setting[Letter]; readonly at: Rational }[];
}

/** Sums of quarters that are equal but for rounding. */
const SAME_QUARTERS = 1e-9;

/**
 * Where the pedals stand at a time of the score, read in printed order: with every move up to that time made, those at
 * that time included, so that a bar's first notes are played with it.
 *
 * @param quarters score time in quarter notes
 */
export const settingAtQuarters = ({ initial, moves }: PedalCourse, quarters: number): Setting => {
  const last = new Map(
    moves
      .filter(({ at }) => toNumber(at) <= quarters + SAME_QUARTERS)
      .map(({ letter, to }) => [letter, to] as const),
  );
  return settingFrom((letter) => last.get(letter) ?? initial[letter]);
};

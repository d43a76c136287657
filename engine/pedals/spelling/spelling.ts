import type { Pitch } from '../../music/pitch.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { Moment } from '../../time/moments.ts';
import { hasRested } from '../../time/rested.ts';
import type { Weights } from '../weights.ts';
import { findSettings } from './setting-course.ts';
import { SETTINGS, type Step, type Table } from './setting-tables.ts';

/** A note to be spelled: the strings that give its pitch, the written one first. */
export interface SpellingChoice {
  readonly moment: number;
  readonly strings: readonly Pitch[];
}

/** For each choice the index of its string, or -1 where no setting within the feet's reach serves it. */
export type ChosenStrings = readonly number[];

/** A rest that spans more moments than this counts as over. */
const MOST_BLOCKED = 3;
/** Digit of a letter's pedal in a setting's number. */
const WEIGHT_OF: Readonly<Record<Letter, number>> = Object.fromEntries(
  LETTERS.map((letter, i) => [letter, 3 ** i]),
) as Record<Letter, number>;

const stands = (setting: number, { letter, alter }: Pitch): boolean =>
  Math.floor(setting / WEIGHT_OF[letter]) % 3 === alter + 1;

/**
 * Spells all notes together with the setting at every moment: the fewest unmet notes, then the cheapest sum of moves
 * and respelled notes, each foot making one move at a moment and resting between two.
 *
 * An exact dynamic programme over the 2,187 settings and the time since each foot moved, in printed order (a rest
 * that spans more than three moments counts as over). Its tables hold the cost of coming to a moment, before the feet
 * move there. Time: some 20,000 to 50,000 steps a moment; memory: one table for every 128 moments, traced back block
 * by block.
 *
 * @param choices in order of moment
 */
export const chooseSpelling = (
  choices: readonly SpellingChoice[],
  moments: readonly Pick<Moment, 'seconds'>[],
  weights: Weights,
): ChosenStrings => {
  const steps = prepareSteps(choices, moments, weights);
  const settings = findSettings(steps);
  return choices.map(({ moment, strings }) =>
    strings.findIndex((string) => stands(settings[moment]!, string)),
  );
};

/** An unmet note outweighs any number of moves. */
const UNMET = 1e7;

const prepareSteps = (
  choices: readonly SpellingChoice[],
  moments: readonly Pick<Moment, 'seconds'>[],
  weights: Weights,
): Step[] => {
  const costs = moments.map((): Table[] => []);
  const known = new Map<string, Table>();
  for (const { moment, strings } of choices) {
    const key = strings.map((string) => `${string.letter}${string.alter}`).join('=');
    const cost = known.get(key) ?? costOfNote(strings, weights.respelling);
    known.set(key, cost);
    costs[moment]!.push(cost);
  }
  return moments.map(({ seconds }, moment) => {
    const blocked = (ago: number): boolean =>
      moment - ago >= 0 && !hasRested(seconds - moments[moment - ago]!.seconds, weights.footRestSeconds);
    const slotOf = Array.from({ length: MOST_BLOCKED + 2 }, (_, ago) =>
      ago > 0 && ago <= MOST_BLOCKED && blocked(ago) ? ago : 0,
    );
    // Before the first note the setting is free, and no foot moves with it.
    const price = moment === 0 ? Number.POSITIVE_INFINITY : weights.move;
    return { slots: Math.max(...slotOf) + 1, slotOf, price, noteCosts: costs[moment]! };
  });
};

const costOfNote = (strings: readonly Pitch[], respelling: number): Table =>
  Float64Array.from({ length: SETTINGS }, (_, setting) => {
    const found = strings.findIndex((string) => stands(setting, string));
    return found < 0 ? UNMET : found === 0 ? 0 : respelling;
  });

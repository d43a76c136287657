import { isSamePitch, LETTERS, type Letter, type Pitch } from '../../music/pitch.ts';
import type { Moment } from '../../time/moments.ts';
import { hasRested } from '../../time/rested.ts';
import type { Weights } from '../weights.ts';
import { findSettings } from './setting-schedule.ts';
import { type CostTable, MOST_BLOCKED, SETTING_COUNT, type SpellingStep } from './setting-tables.ts';

/** A note to be spelled, and the strings that may give its pitch: all but the written one count as respelled. */
export interface SpellingChoice {
  readonly moment: number;
  readonly written: Pitch;
  readonly strings: readonly Pitch[];
}

/** For each choice the index of its string, or -1 where no setting within the feet's reach serves it. */
export type ChosenStrings = readonly number[];

/** What the programme chose, and what that comes to. */
export interface ChosenSettings {
  readonly strings: ChosenStrings;
  readonly cost: number;
  readonly moves: number;
  /** Every note is served, and no course of settings that serves them all has fewer moves. */
  readonly fewestMoves: boolean;
}

/** Digit of a letter's pedal in a setting's number. */
const STRIDE_OF: Readonly<Record<Letter, number>> = Object.fromEntries(
  LETTERS.map((letter, i) => [letter, 3 ** i]),
) as Record<Letter, number>;

const givesPitch = (setting: number, { letter, alter }: Pitch): boolean =>
  Math.floor(setting / STRIDE_OF[letter]) % 3 === alter + 1;

/**
 * Spells all notes together with the setting at every moment: the fewest unmet notes, then the cheapest sum of moves
 * and respelled notes, each foot making one move at a moment and resting between two. By the usual weights that is the
 * fewest moves, then the fewest respelled notes.
 *
 * An exact dynamic programme over the 2,187 settings and the time since each foot moved, in printed order (a rest
 * that spans more than three moments counts as over). Its tables hold the cost of coming to a moment, before the feet
 * move there. Time: some 20,000 to 50,000 steps a moment; memory: some 32 MB of tables, a long part traced back block by
 * block.
 *
 * @param choices in order of moment
 */
export const chooseSpelling = (
  choices: readonly SpellingChoice[],
  moments: readonly Pick<Moment, 'seconds'>[],
  weights: Weights,
): ChosenSettings => {
  const prices = programmePrices(weights);
  const steps = prepareSteps(choices, moments, prices, weights.footRestSeconds);
  const settings = findSettings(steps);
  const moves = settings.reduce(
    (sum, setting, i) => sum + (i === 0 ? 0 : pedalsBetween(settings[i - 1]!, setting)),
    0,
  );
  const strings = choices.map(({ moment, strings }) =>
    strings.findIndex((string) => givesPitch(settings[moment]!, string)),
  );
  return {
    strings,
    cost:
      moves * prices.move + steps.reduce((sum, { noteCosts }, i) => sum + sumAt(noteCosts, settings[i]!), 0),
    moves,
    fewestMoves: !strings.includes(-1) && prices.respelling * choices.length < prices.move,
  };
};

const sumAt = (noteCosts: readonly CostTable[], setting: number): number =>
  noteCosts.reduce((sum, cost) => sum + cost[setting]!, 0);

const pedalsBetween = (a: number, b: number): number =>
  Object.values(STRIDE_OF).filter((stride) => Math.floor(a / stride) % 3 !== Math.floor(b / stride) % 3)
    .length;

/** What the programme adds up. */
export interface ProgrammePrices {
  readonly move: number;
  readonly respelling: number;
  /** Of a note that no setting within the feet's reach serves: outweighs 100,000 moves. */
  readonly unmet: number;
}

/** Prices are whole 16ths, so that their sums are exact as far as thousands of unmet notes. */
export const programmePrices = ({ move, respelling }: Weights): ProgrammePrices => {
  const exact = (price: number): number => Math.round(16 * price) / 16;
  return {
    move: exact(move),
    respelling: exact(respelling),
    unmet: 100_000 * Math.max(100, Math.ceil(move), Math.ceil(respelling)),
  };
};

const prepareSteps = (
  choices: readonly SpellingChoice[],
  moments: readonly Pick<Moment, 'seconds'>[],
  prices: ProgrammePrices,
  footRestSeconds: number,
): SpellingStep[] => {
  const costs = moments.map((): CostTable[] => []);
  const known = new Map<string, CostTable>();
  for (const { moment, written, strings } of choices) {
    const key = [written, ...strings].map((string) => `${string.letter}${string.alter}`).join('=');
    const cost = known.get(key) ?? costOfNote(written, strings, prices);
    known.set(key, cost);
    costs[moment]!.push(cost);
  }
  return moments.map(({ seconds }, moment) => {
    const blocked = (ago: number): boolean =>
      moment - ago >= 0 && !hasRested(seconds - moments[moment - ago]!.seconds, footRestSeconds);
    const slotOf = Array.from({ length: MOST_BLOCKED + 2 }, (_, ago) =>
      ago > 0 && ago <= MOST_BLOCKED && blocked(ago) ? ago : 0,
    );
    // Before the first note the setting is free, and no foot moves with it.
    const price = moment === 0 ? Number.POSITIVE_INFINITY : prices.move;
    return { slots: Math.max(...slotOf) + 1, slotOf, price, noteCosts: costs[moment]! };
  });
};

const costOfNote = (
  written: Pitch,
  strings: readonly Pitch[],
  { respelling, unmet }: ProgrammePrices,
): CostTable =>
  Float64Array.from({ length: SETTING_COUNT }, (_, setting) => {
    const found = strings.find((string) => givesPitch(setting, string));
    return found === undefined ? unmet : isSamePitch(found, written) ? 0 : respelling;
  });

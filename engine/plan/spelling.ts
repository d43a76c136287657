import { FEET } from '../harp/setting.ts';
import { LETTERS, type Letter, type Pitch } from '../music/pitch.ts';
import type { Moment } from './moments.ts';
import type { Weights } from './weights.ts';

/** A note to be spelled: the strings that give its pitch, the written one first. */
export interface SpellingChoice {
  readonly moment: number;
  readonly strings: readonly Pitch[];
}

/** For each choice the index of its string, or -1 where no setting within the feet's reach serves it. */
export type ChosenStrings = readonly number[];

/** Settings are numbered: the left foot's 27 positions vary fastest, then the right foot's 81. */
const LEFT = 3 ** FEET.left.length;
const RIGHT = 3 ** FEET.right.length;
const SETTINGS = LEFT * RIGHT;
/** A foot has rested (0), moved at this moment (1), or up to three moments ago, too shortly to move again. */
const MOST_LEVELS = 5;
/** Moments whose cost tables are kept at once while the best course is traced back. */
const BLOCK = 128;

/** Digit of a letter's pedal in a setting's number. */
const WEIGHT_OF: Readonly<Record<Letter, number>> = Object.fromEntries(
  LETTERS.map((letter, i) => [letter, 3 ** i]),
) as Record<Letter, number>;

const stands = (setting: number, { letter, alter }: Pitch): boolean =>
  Math.floor(setting / WEIGHT_OF[letter]) % 3 === alter + 1;

/** Per foot, the numbers that differ from a given one in exactly one pedal. */
const neighboursOf = (pedals: number): readonly (readonly number[])[] =>
  Array.from({ length: 3 ** pedals }, (_, number) =>
    Array.from({ length: pedals }, (_unused, i) => 3 ** i).flatMap((weight) => {
      const digit = Math.floor(number / weight) % 3;
      return [0, 1, 2].filter((other) => other !== digit).map((other) => number + (other - digit) * weight);
    }),
  );

const LEFT_NEIGHBOURS = neighboursOf(FEET.left.length);
const RIGHT_NEIGHBOURS = neighboursOf(FEET.right.length);

type Table = Float64Array<ArrayBuffer>;

interface Step {
  readonly levels: number;
  /** Level before a moment by level after the moment before: what has rested meanwhile becomes 0. */
  readonly age: readonly number[];
  readonly noteCost: Float64Array;
}

/**
 * Spells all notes together with the setting at every moment: the fewest unmet notes, then the cheapest sum of moves
 * and respelled notes, each foot making one move at a moment and resting between two.
 *
 * An exact dynamic programme over the 2,187 settings and the time since each foot moved, in printed order (a rest
 * that spans more than four moments counts as over). Time: some 35,000 steps a moment and level of rest; memory:
 * one table of costs for every 128 moments, traced back block by block.
 *
 * @param choices in order of moment
 */
export const chooseSpelling = (
  choices: readonly SpellingChoice[],
  moments: readonly Pick<Moment, 'seconds'>[],
  weights: Weights,
): ChosenStrings => {
  const steps = prepareSteps(choices, moments, weights);
  const checkpoints: Table[] = [];
  let table = new Float64Array(0);
  steps.forEach((step, moment) => {
    table = moment === 0 ? startTable(step) : advance(table, steps[moment - 1]!.levels, step, weights.move);
    if (moment % BLOCK === 0) checkpoints.push(table);
  });
  const settings = traceBack(steps, checkpoints, table, weights.move);
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
  const byMoment = new Map<number, SpellingChoice[]>();
  for (const choice of choices) {
    const here = byMoment.get(choice.moment) ?? [];
    here.push(choice);
    byMoment.set(choice.moment, here);
  }
  const known = new Map<string, Float64Array>();
  return moments.map(({ seconds }, moment) => {
    const here = byMoment.get(moment) ?? [];
    const key = here.map(({ strings }) => strings.map((s) => `${s.letter}${s.alter}`).join('=')).join(' ');
    const noteCost = known.get(key) ?? costOfNotes(here, weights.respelling);
    known.set(key, noteCost);
    const blocked = (ago: number): boolean =>
      moment - ago >= 0 && seconds - moments[moment - ago]!.seconds < weights.footRestSeconds - 1e-6;
    const age = Array.from({ length: MOST_LEVELS }, (_, level) =>
      level > 0 && level < MOST_LEVELS - 1 && blocked(level) ? level + 1 : 0,
    );
    return { levels: Math.max(1, ...age) + 1, age, noteCost };
  });
};

const costOfNotes = (choices: readonly SpellingChoice[], respelling: number): Float64Array => {
  const cost = new Float64Array(SETTINGS);
  for (const { strings } of choices) {
    for (let setting = 0; setting < SETTINGS; setting += 1) {
      const found = strings.findIndex((string) => stands(setting, string));
      if (found !== 0) cost[setting]! += found < 0 ? UNMET : respelling;
    }
  }
  return cost;
};

/** Tables are laid out by the left foot's level, the right foot's level, then the setting. */
const at = (left: number, right: number, levels: number): number => (left * levels + right) * SETTINGS;

const startTable = ({ levels, noteCost }: Step): Table => {
  const table = new Float64Array(levels * levels * SETTINGS).fill(Number.POSITIVE_INFINITY);
  table.set(noteCost, at(0, 0, levels));
  return table;
};

const advance = (
  before: Table,
  levelsBefore: number,
  { levels, age, noteCost }: Step,
  move: number,
): Table => {
  const table = new Float64Array(levels * levels * SETTINGS).fill(Number.POSITIVE_INFINITY);
  for (let left = 0; left < levelsBefore; left += 1) {
    for (let right = 0; right < levelsBefore; right += 1) {
      const source = at(left, right, levelsBefore);
      const target = at(age[left]!, age[right]!, levels);
      for (let s = 0; s < SETTINGS; s += 1) {
        if (before[source + s]! < table[target + s]!) table[target + s] = before[source + s]!;
      }
    }
  }
  for (let right = 0; right < levels; right += 1)
    moveLeft(table, at(0, right, levels), at(1, right, levels), move);
  for (let left = 0; left < levels; left += 1)
    moveRight(table, at(left, 0, levels), at(left, 1, levels), move);
  for (let cell = 0; cell < levels * levels; cell += 1) {
    for (let s = 0; s < SETTINGS; s += 1) table[cell * SETTINGS + s]! += noteCost[s]!;
  }
  return table;
};

/** From every setting of a rested left foot to those one pedal away. */
const moveLeft = (table: Table, rested: number, moved: number, price: number): void => {
  for (let right = 0; right < SETTINGS; right += LEFT) {
    for (let left = 0; left < LEFT; left += 1) {
      let best = table[moved + right + left]!;
      for (const from of LEFT_NEIGHBOURS[left]!) {
        const cost = table[rested + right + from]! + price;
        if (cost < best) best = cost;
      }
      table[moved + right + left] = best;
    }
  }
};

const moveRight = (table: Table, rested: number, moved: number, price: number): void => {
  for (let right = 0; right < RIGHT; right += 1) {
    for (const from of RIGHT_NEIGHBOURS[right]!) {
      const source = rested + from * LEFT;
      const target = moved + right * LEFT;
      for (let left = 0; left < LEFT; left += 1) {
        const cost = table[source + left]! + price;
        if (cost < table[target + left]!) table[target + left] = cost;
      }
    }
  }
};

/** Walks the cheapest course back, making each block's tables again from its checkpoint. */
const traceBack = (
  steps: readonly Step[],
  checkpoints: readonly Table[],
  last: Table,
  move: number,
): number[] => {
  const settings = new Array<number>(steps.length).fill(0);
  let state = last.indexOf(last.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY));
  for (let block = checkpoints.length - 1; block >= 0; block -= 1) {
    const start = block * BLOCK;
    const end = Math.min(steps.length, start + BLOCK);
    const tables = [checkpoints[block]!];
    for (let m = start + 1; m < end; m += 1) {
      tables.push(advance(tables.at(-1)!, steps[m - 1]!.levels, steps[m]!, move));
    }
    const follow = block + 1 < checkpoints.length ? checkpoints[block + 1]! : null;
    if (follow !== null)
      state = previousState(tables.at(-1)!, steps[end - 1]!.levels, follow, steps[end]!, state, move);
    for (let m = end - 1; m >= start; m -= 1) {
      settings[m] = state % SETTINGS;
      if (m > start)
        state = previousState(
          tables[m - 1 - start]!,
          steps[m - 1]!.levels,
          tables[m - start]!,
          steps[m]!,
          state,
          move,
        );
    }
  }
  return settings;
};

/** A state of the moment before from which `state` was reached at its cost. */
const previousState = (
  before: Table,
  levelsBefore: number,
  after: Table,
  { levels, age, noteCost }: Step,
  state: number,
  move: number,
): number => {
  const setting = state % SETTINGS;
  const cell = Math.floor(state / SETTINGS);
  const leftLevel = Math.floor(cell / levels);
  const rightLevel = cell % levels;
  const left = setting % LEFT;
  const right = Math.floor(setting / LEFT);
  const target = after[state]! - noteCost[setting]!;
  const lefts = leftLevel === 1 ? LEFT_NEIGHBOURS[left]! : [left];
  const rights = rightLevel === 1 ? RIGHT_NEIGHBOURS[right]! : [right];
  const price = (leftLevel === 1 ? move : 0) + (rightLevel === 1 ? move : 0);
  for (let l = 0; l < levelsBefore; l += 1) {
    if (age[l] !== (leftLevel === 1 ? 0 : leftLevel)) continue;
    for (let r = 0; r < levelsBefore; r += 1) {
      if (age[r] !== (rightLevel === 1 ? 0 : rightLevel)) continue;
      for (const fromLeft of lefts) {
        for (const fromRight of rights) {
          const from = at(l, r, levelsBefore) + fromLeft + LEFT * fromRight;
          if (Math.abs(before[from]! + price - target) < 1e-6) return from;
        }
      }
    }
  }
  throw new Error('a course of settings cannot be traced back');
};

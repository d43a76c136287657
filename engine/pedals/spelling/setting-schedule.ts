import {
  advanceTable,
  type CostTable,
  cellOffset,
  LEFT_PEDAL_STRIDES,
  RIGHT_PEDAL_STRIDES,
  SETTING_COUNT,
  type SpellingStep,
  sumTables,
} from './setting-tables.ts';

/** Bytes of cost tables that are kept at once while the best course is traced back; a long part is traced in blocks. */
const MOST_BYTES = 32 * 2 ** 20;

/** What a moment ends with: for each foot how it comes on (0: rested; 1: moved here; more: moved before), and the setting. */
interface End {
  readonly left: number;
  readonly right: number;
  readonly setting: number;
}

/**
 * The cheapest course of settings, one for every step. Of equal ends the one with the lowest numbers is taken.
 *
 * The tables of one block of moments are kept at a time; those of earlier blocks are made again from their first.
 *
 * @param block moments of a block
 */
export const findSettings = (
  steps: readonly SpellingStep[],
  block = momentsThatFit(steps),
): readonly number[] => {
  if (steps.length === 0) return [];
  const firsts = [new Float64Array(SETTING_COUNT)];
  let tables = [firsts[0]!];
  for (let moment = 1; moment < steps.length; moment += 1) {
    const table = advanceTable(tables.at(-1)!, steps[moment - 1]!, steps[moment]!);
    if (moment % block === 0) {
      firsts.push(table);
      tables = [];
    }
    tables.push(table);
  }
  const settings = new Array<number>(steps.length);
  let end = cheapestEnd(tables.at(-1)!, steps.at(-1)!);
  for (let moment = steps.length - 1; moment > 0; moment -= 1) {
    settings[moment] = end.setting;
    const cost = costOfEnd(tables[moment % block]!, steps[moment]!, end);
    if (moment % block === 0)
      tables = tablesBetween(steps, firsts[moment / block - 1]!, moment - block, moment);
    end = endBefore(tables[(moment - 1) % block]!, steps[moment - 1]!, steps[moment]!, end, cost);
  }
  settings[0] = end.setting;
  return settings;
};

const momentsThatFit = (steps: readonly SpellingStep[]): number => {
  const cells = steps.reduce((sum, { slots }) => sum + slots * slots * SETTING_COUNT, 0);
  const share = MOST_BYTES / (Float64Array.BYTES_PER_ELEMENT * cells);
  return Math.max(1, Math.floor(share * steps.length));
};

/** The tables from one moment to before another. */
const tablesBetween = (
  steps: readonly SpellingStep[],
  first: CostTable,
  from: number,
  until: number,
): CostTable[] => {
  const tables = [first];
  for (let moment = from + 1; moment < until; moment += 1) {
    tables.push(advanceTable(tables.at(-1)!, steps[moment - 1]!, steps[moment]!));
  }
  return tables;
};

const cheapestEnd = (table: CostTable, step: SpellingStep): End => {
  let best: End = { left: 0, right: 0, setting: 0 };
  let least = Number.POSITIVE_INFINITY;
  const lowest = table.reduce((a, b) => Math.min(a, b));
  const notes = sumTables(step.noteCosts);
  for (let left = 0; left <= step.slots; left += 1) {
    for (let right = 0; right <= step.slots; right += 1) {
      for (let setting = 0; setting < SETTING_COUNT; setting += 1) {
        const end = { left, right, setting };
        if (lowest + notes[setting]! >= least) continue;
        const cost = costOfEnd(table, step, end);
        if (cost >= least) continue;
        least = cost;
        best = end;
      }
    }
  }
  return best;
};

/** The slot with which a foot came. */
const slotBefore = (end: number): number => Math.max(0, end - 1);

/** What an end costs from the start: the cheapest of the settings that its moves may have begun with. */
const costOfEnd = (table: CostTable, { slots, price, noteCosts }: SpellingStep, end: End): number => {
  const cell = cellOffset(slotBefore(end.left), slotBefore(end.right), slots);
  let least = Number.POSITIVE_INFINITY;
  for (const start of startsOf(end)) least = Math.min(least, table[cell + start]!);
  if (end.left === 1) least += price;
  if (end.right === 1) least += price;
  return least + noteCosts.reduce((sum, cost) => sum + cost[end.setting]!, 0);
};

/** The settings that an end's moves may have begun with. */
const startsOf = ({ left, right, setting }: End): readonly number[] => {
  const lefts = left === 1 ? onePedalAway(setting, LEFT_PEDAL_STRIDES) : [setting];
  return right === 1 ? lefts.flatMap((start) => onePedalAway(start, RIGHT_PEDAL_STRIDES)) : lefts;
};

const onePedalAway = (setting: number, pedals: readonly number[]): readonly number[] =>
  pedals.flatMap((pedal) => {
    const digit = Math.floor(setting / pedal) % 3;
    return [0, 1, 2].filter((other) => other !== digit).map((other) => setting + (other - digit) * pedal);
  });

/** The end of the moment before from which `end` was reached: of those whose cost is nearest to its, the first. */
const endBefore = (
  table: CostTable,
  before: SpellingStep,
  here: SpellingStep,
  end: End,
  cost: number,
): End => {
  const moves = (end.left === 1 ? here.price : 0) + (end.right === 1 ? here.price : 0);
  const target = cost - here.noteCosts.reduce((sum, each) => sum + each[end.setting]!, 0) - moves;
  const starts = startsOf(end);
  let best: End | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let left = 0; left <= before.slots; left += 1) {
    if (here.slotOf[left] !== slotBefore(end.left)) continue;
    for (let right = 0; right <= before.slots; right += 1) {
      if (here.slotOf[right] !== slotBefore(end.right)) continue;
      for (const setting of starts) {
        const found = { left, right, setting };
        const apart = Math.abs(costOfEnd(table, before, found) - target);
        if (apart === 0) return found;
        if (apart >= least) continue;
        least = apart;
        best = found;
      }
    }
  }
  if (best === null) throw new Error('a course of settings cannot be traced back');
  return best;
};

import { FEET } from '../../harp/setting.ts';

/** Settings are numbered: the left foot's 27 positions vary fastest, then the right foot's 81. */
const LEFT = 3 ** FEET.left.length;
export const SETTING_COUNT = LEFT * 3 ** FEET.right.length;
/** By how much a pedal's next position raises a setting's number. */
export const LEFT_PEDAL_STRIDES = FEET.left.map((_, i) => 3 ** i);
export const RIGHT_PEDAL_STRIDES = FEET.right.map((_, i) => LEFT * 3 ** i);

export type CostTable = Float64Array<ArrayBuffer>;

/**
 * One moment. A foot comes to it rested (slot 0), or having moved so many moments ago that it still must rest (slots
 * 1, 2, ...). Then it stays, or, if rested, moves: seen from the next moment, that was one moment ago.
 */
export interface SpellingStep {
  readonly slots: number;
  /** Slot here by how many moments ago the foot moved; 0 stands for a rested foot. */
  readonly slotOf: readonly number[];
  /** Price of a move here. */
  readonly price: number;
  /** Cost of each note here, by setting. */
  readonly noteCosts: readonly CostTable[];
}

/** A rest that spans more moments than this counts as over. */
export const MOST_BLOCKED = 3;

/** What the left foot's moves come to, until the right foot's are added: overwritten at each moment. */
const BETWEEN_FEET: CostTable = new Float64Array((MOST_BLOCKED + 1) ** 2 * SETTING_COUNT);

/** Tables are laid out by the left foot's slot, the right foot's slot, then the setting. */
export const cellOffset = (left: number, right: number, rightSlots: number): number =>
  (left * rightSlots + right) * SETTING_COUNT;

/** The cost of coming to `next`, from that of coming to the moment before it. */
export const advanceTable = (before: CostTable, here: SpellingStep, next: SpellingStep): CostTable => {
  const between = BETWEEN_FEET.subarray(0, next.slots * here.slots * SETTING_COUNT);
  for (let right = 0; right < here.slots; right += 1) {
    const from = cellsOf(before, here.slots, (slot) => cellOffset(slot, right, here.slots));
    const to = cellsOf(between, next.slots, (slot) => cellOffset(slot, right, here.slots));
    moveFoot(LEFT_PEDAL_STRIDES, from, to, here.price, next.slotOf);
  }
  const after = new Float64Array(next.slots * next.slots * SETTING_COUNT);
  for (let left = 0; left < next.slots; left += 1) {
    const from = cellsOf(between, here.slots, (slot) => cellOffset(left, slot, here.slots));
    const to = cellsOf(after, next.slots, (slot) => cellOffset(left, slot, next.slots));
    moveFoot(RIGHT_PEDAL_STRIDES, from, to, here.price, next.slotOf);
  }
  if (here.noteCosts.length > 0) addToCells(after, sumTables(here.noteCosts));
  return after;
};

/** The costs by setting, for each slot of one foot. */
const cellsOf = (table: CostTable, slots: number, offset: (slot: number) => number): readonly CostTable[] =>
  Array.from({ length: slots }, (_, slot) => table.subarray(offset(slot), offset(slot) + SETTING_COUNT));

/** The cost of several notes together, by setting. */
export const sumTables = ([first, ...others]: readonly CostTable[]): CostTable => {
  const sum = first?.slice() ?? new Float64Array(SETTING_COUNT);
  for (const other of others) {
    for (let s = 0; s < SETTING_COUNT; s += 1) sum[s]! += other[s]!;
  }
  return sum;
};

const addToCells = (table: CostTable, cost: CostTable): void => {
  for (let cell = 0; cell < table.length; cell += SETTING_COUNT) {
    for (let s = 0; s < SETTING_COUNT; s += 1) table[cell + s]! += cost[s]!;
  }
};

/**
 * One foot stays, or moves if rested; then it has the slot that the next moment knows it by.
 *
 * @param to filled here; no course comes to what stays infinite
 */
const moveFoot = (
  pedals: readonly number[],
  from: readonly CostTable[],
  to: readonly CostTable[],
  price: number,
  slotOf: readonly number[],
): void => {
  const filled = new Set<CostTable>();
  from.forEach((costs, slot) => {
    const target = to[slotOf[slot === 0 ? 0 : slot + 1]!]!;
    if (filled.has(target)) keepLess(costs, target);
    else target.set(costs);
    filled.add(target);
  });
  for (const each of to) if (!filled.has(each)) each.fill(Number.POSITIVE_INFINITY);
  for (const pedal of pedals) movePedal(pedal, from[0]!, to[slotOf[1]!]!, price);
};

const keepLess = (source: CostTable, target: CostTable): void => {
  for (let s = 0; s < SETTING_COUNT; s += 1) {
    const cost = source[s]!;
    if (cost < target[s]!) target[s] = cost;
  }
};

/** From each position of one pedal to the other two. */
const movePedal = (pedal: number, source: CostTable, target: CostTable, price: number): void => {
  for (let high = 0; high < SETTING_COUNT; high += 3 * pedal) {
    for (let flat = high; flat < high + pedal; flat += 1) {
      const natural = flat + pedal;
      const sharp = natural + pedal;
      const a = source[flat]! + price;
      const b = source[natural]! + price;
      const c = source[sharp]! + price;
      const toFlat = Math.min(b, c);
      const toNatural = Math.min(a, c);
      const toSharp = Math.min(a, b);
      if (toFlat < target[flat]!) target[flat] = toFlat;
      if (toNatural < target[natural]!) target[natural] = toNatural;
      if (toSharp < target[sharp]!) target[sharp] = toSharp;
    }
  }
};

import { FEET } from '../../harp/setting.ts';

/** Settings are numbered: the left foot's 27 positions vary fastest, then the right foot's 81. */
const LEFT = 3 ** FEET.left.length;
export const SETTINGS = LEFT * 3 ** FEET.right.length;
/** By how much a pedal's next position raises a setting's number. */
export const LEFT_FOOT = FEET.left.map((_, i) => 3 ** i);
export const RIGHT_FOOT = FEET.right.map((_, i) => LEFT * 3 ** i);

export type Table = Float64Array<ArrayBuffer>;

/**
 * One moment. A foot comes to it rested (slot 0), or having moved so many moments ago that it still must rest (slots
 * 1, 2, ...). Then it stays, or, if rested, moves: seen from the next moment, that was one moment ago.
 */
export interface Step {
  readonly slots: number;
  /** Slot here by how many moments ago the foot moved; 0 stands for a rested foot. */
  readonly slotOf: readonly number[];
  /** Price of a move here. */
  readonly price: number;
  /** Cost of each note here, by setting. */
  readonly noteCosts: readonly Table[];
}

/** Tables are laid out by the left foot's slot, the right foot's slot, then the setting. */
export const at = (left: number, right: number, rightSlots: number): number =>
  (left * rightSlots + right) * SETTINGS;

/** The cost of coming to `next`, from that of coming to the moment before it. */
export const advance = (before: Table, here: Step, next: Step): Table => {
  const between = new Float64Array(next.slots * here.slots * SETTINGS).fill(Number.POSITIVE_INFINITY);
  for (let right = 0; right < here.slots; right += 1) {
    const from = (slot: number): number => at(slot, right, here.slots);
    moveFoot(LEFT_FOOT, before, from, between, from, here, next);
  }
  const after = new Float64Array(next.slots * next.slots * SETTINGS).fill(Number.POSITIVE_INFINITY);
  for (let left = 0; left < next.slots; left += 1) {
    const from = (slot: number): number => at(left, slot, here.slots);
    const to = (slot: number): number => at(left, slot, next.slots);
    moveFoot(RIGHT_FOOT, between, from, after, to, here, next);
  }
  if (here.noteCosts.length > 0) addToCells(after, sumOf(here.noteCosts));
  return after;
};

/** The cost of several notes together, by setting. */
export const sumOf = ([first, ...others]: readonly Table[]): Table => {
  const sum = first?.slice() ?? new Float64Array(SETTINGS);
  for (const other of others) {
    for (let s = 0; s < SETTINGS; s += 1) sum[s]! += other[s]!;
  }
  return sum;
};

const addToCells = (table: Table, cost: Table): void => {
  for (let cell = 0; cell < table.length; cell += SETTINGS) {
    for (let s = 0; s < SETTINGS; s += 1) table[cell + s]! += cost[s]!;
  }
};

type Layout = (slot: number) => number;

/** One foot stays, or moves if rested; then it has the slot that the next moment knows it by. */
const moveFoot = (
  pedals: readonly number[],
  source: Table,
  from: Layout,
  target: Table,
  to: Layout,
  { slots, price }: Step,
  { slotOf }: Step,
): void => {
  for (let slot = 0; slot < slots; slot += 1) {
    keepLess(source, from(slot), target, to(slotOf[slot === 0 ? 0 : slot + 1]!));
  }
  for (const pedal of pedals) movePedal(pedal, source, from(0), target, to(slotOf[1]!), price);
};

const keepLess = (source: Table, from: number, target: Table, to: number): void => {
  for (let s = 0; s < SETTINGS; s += 1) {
    const cost = source[from + s]!;
    if (cost < target[to + s]!) target[to + s] = cost;
  }
};

/** From each position of one pedal to the other two. */
const movePedal = (
  pedal: number,
  source: Table,
  from: number,
  target: Table,
  to: number,
  price: number,
): void => {
  for (let high = 0; high < SETTINGS; high += 3 * pedal) {
    for (let flat = high; flat < high + pedal; flat += 1) {
      const natural = flat + pedal;
      const sharp = natural + pedal;
      const a = source[from + flat]! + price;
      const b = source[from + natural]! + price;
      const c = source[from + sharp]! + price;
      lower(target, to + flat, Math.min(b, c));
      lower(target, to + natural, Math.min(a, c));
      lower(target, to + sharp, Math.min(a, b));
    }
  }
};

const lower = (target: Table, place: number, cost: number): void => {
  if (cost < target[place]!) target[place] = cost;
};

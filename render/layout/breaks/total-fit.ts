/** A way to set one line. */
export interface PossibleLine {
  /** Index of the first bar after it. */
  readonly until: number;
  readonly cost: number;
  /** With the space to the next line. */
  readonly height: number;
}

/** A page that is ended. */
export interface PageEnd {
  readonly isOdd: boolean;
  /** Share of its room that its lines take. */
  readonly filled: number;
  /** Index of the first bar of the next page; null after the last. */
  readonly next: number | null;
}

/** What there is to break. */
export interface FitTask {
  readonly bars: number;
  /** The lines that may begin with a bar: at least one for each bar that some line leads to. */
  readonly linesFrom: (bar: number) => readonly PossibleLine[];
  /** Height of a page, and what the first page loses of it to its heading. */
  readonly room: number;
  readonly heading: number;
  readonly pageCost: (page: PageEnd) => number;
  /** What it costs that the last line stands on a page by itself, after others. */
  readonly loneLast: number;
}

/** Where lines and pages begin, the first included. */
export interface Fit {
  readonly systems: readonly number[];
  readonly pages: readonly number[];
  readonly cost: number;
}

/** Heights are counted in steps of a page's room, some millimetre each. */
export const STEPS = 200;

/** Height in steps, rounded up so that a page never holds too much; a line that is higher than a page gets one whole. */
export const heightInSteps = (height: number, room: number): number =>
  Math.max(1, Math.min(STEPS, Math.ceil((height / room) * STEPS - ROUNDING)));

const ROUNDING = 1e-6;

/**
 * Breaks a part into lines and pages at once, at the least total cost.
 *
 * The total-fit idea of Knuth and Plass, "Breaking Paragraphs into Lines" (Software: Practice and Experience 11, 1981),
 * for lines and pages together: a dynamic programme over the bars, the height used on the page and the side of the page.
 * Exact, up to the rounding of heights. Linear in the bars, times the lines that may begin with one.
 */
export const fitPages = (task: FitTask): Fit => {
  const { bars, heading, linesFrom, loneLast, room } = task;
  const table = startTable(bars);
  table.costs[stateOf(0, heading <= 0 ? 0 : heightInSteps(heading, room), ODD)] = 0;
  for (let bar = 0; bar < bars; bar += 1) {
    const reached = reachedStates(table, bar);
    const ended =
      bar === 0 || reached.length === 0 ? [] : [ODD, EVEN].map((side) => endPage(task, table, bar, side));
    for (const { cost, height, until } of reached.length === 0 ? [] : linesFrom(bar)) {
      const steps = heightInSteps(height, room);
      for (const used of reached) {
        // The first line stands on the first page in any case.
        if (used + steps > STEPS && bar > 0) break;
        for (const side of [ODD, EVEN]) {
          const state = stateOf(bar, used, side);
          offer(
            table,
            stateOf(until, Math.min(STEPS, used + steps), side),
            table.costs[state]! + cost,
            state,
          );
        }
      }
      ended.forEach(({ cost: before, state }, side) => {
        const lone = until === bars ? loneLast : 0;
        offer(table, stateOf(until, steps, 1 - side), before + cost + lone, state);
      });
    }
  }
  return readFit(task, table);
};

/** Sides of a page; where two states of a way differ in it, a new page begins. */
const ODD = 0;
const EVEN = 1;
const STATES_OF_BAR = 2 * (STEPS + 1);

const stateOf = (bar: number, used: number, side: number): number => bar * STATES_OF_BAR + used * 2 + side;

interface Table {
  /** Of the cheapest way to each state found so far. */
  readonly costs: Float64Array;
  /** The state before it on that way; -1 for none. */
  readonly before: Int32Array;
}

const startTable = (bars: number): Table => {
  const costs = new Float64Array((bars + 1) * STATES_OF_BAR).fill(Number.POSITIVE_INFINITY);
  return { costs, before: new Int32Array(costs.length).fill(-1) };
};

/** How much of a page may be used before a bar, from the least. */
const reachedStates = ({ costs }: Table, bar: number): number[] => {
  const reached: number[] = [];
  for (let used = 0; used <= STEPS; used += 1) {
    if (
      Math.min(costs[stateOf(bar, used, ODD)]!, costs[stateOf(bar, used, EVEN)]!) < Number.POSITIVE_INFINITY
    )
      reached.push(used);
  }
  return reached;
};

/** The cheapest way to end a page of one side before a bar. */
const endPage = (
  { pageCost }: FitTask,
  { costs }: Table,
  bar: number,
  side: number,
): { readonly cost: number; readonly state: number } => {
  let best = { cost: Number.POSITIVE_INFINITY, state: -1 };
  for (let used = 0; used <= STEPS; used += 1) {
    const state = stateOf(bar, used, side);
    if (costs[state] === Number.POSITIVE_INFINITY) continue;
    const cost = costs[state]! + pageCost({ isOdd: side === ODD, filled: used / STEPS, next: bar });
    if (cost < best.cost) best = { cost, state };
  }
  return best;
};

const offer = ({ costs, before }: Table, state: number, cost: number, from: number): void => {
  if (cost >= costs[state]!) return;
  costs[state] = cost;
  before[state] = from;
};

const readFit = ({ bars, pageCost }: FitTask, { costs, before }: Table): Fit => {
  let best = { state: -1, cost: Number.POSITIVE_INFINITY };
  for (let used = 0; used <= STEPS; used += 1) {
    for (const side of [ODD, EVEN]) {
      const state = stateOf(bars, used, side);
      const cost = costs[state]! + pageCost({ isOdd: side === ODD, filled: used / STEPS, next: null });
      if (cost < best.cost) best = { state, cost };
    }
  }
  const systems: number[] = [];
  const pages: number[] = [];
  for (let state = best.state; before[state]! >= 0; state = before[state]!) {
    const from = before[state]!;
    const bar = Math.floor(from / STATES_OF_BAR);
    systems.push(bar);
    if (bar === 0 || from % 2 !== state % 2) pages.push(bar);
  }
  return { systems: systems.reverse(), pages: pages.reverse(), cost: best.cost };
};

import { group } from '../group.ts';
import { accidentalSign } from '../music/accidental.ts';
import { LETTERS, LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import { leversBefore, leversToSet, type TuneLevers } from './tune-levers.ts';

/** A lever to set in a break. */
export interface BreakChange {
  readonly string: string;
  readonly up: boolean;
  /** What the string then gives, as the change is written: `F♯4`. */
  readonly pitch: string;
}

/** The tunes of a set in the order with the fewest levers to set between them. */
export interface SetOrder {
  /** Indices of the tunes in the order of playing. */
  readonly order: readonly number[];
  /** What to set before each tune; before the first, the levers that are up. */
  readonly breaks: readonly (readonly BreakChange[])[];
  /** Levers set between the tunes, those before the first not counted. */
  readonly changes: number;
}

/** The search is exact for so many tunes; its states double with each. */
export const MOST_TUNES_IN_SET = 12;

/** A way to play some of the tunes: where the levers of all strings then stand, and how many were set. */
interface Way {
  readonly levers: ReadonlyMap<string, boolean>;
  readonly changes: number;
  readonly order: readonly number[];
}

/**
 * The order of tunes, all in one tuning of the open strings, that needs the fewest lever changes between them.
 *
 * A dynamic programme over the tunes played and the last of them (Held and Karp 1962, J. SIAM 10:196). The levers of
 * strings that the last tune leaves alone stand as an earlier one left them, so several ways to one state are kept: a
 * way falls out only where another is not dearer even after setting every lever that stands otherwise. Exact; of equal
 * orders the one that keeps the tunes as given the longest is taken.
 *
 * @param tunes at most `MOST_TUNES_IN_SET`
 * @throws RangeError for more
 */
export const orderSet = (tunes: readonly TuneLevers[]): SetOrder => {
  if (tunes.length > MOST_TUNES_IN_SET) throw new RangeError(`a set of ${tunes.length} tunes`);
  const all = 2 ** tunes.length - 1;
  let ways = new Map<string, readonly Way[]>(
    tunes.map((_, index) => [`${1 << index} ${index}`, [play(tunes, startOf(tunes[index]!), index)]]),
  );
  for (let played = 1; played < tunes.length; played += 1) {
    const next = new Map<string, Way[]>();
    for (const [key, reached] of ways) {
      const done = Number(key.split(' ')[0]);
      for (let tune = 0; tune < tunes.length; tune += 1) {
        if ((done & (1 << tune)) !== 0) continue;
        const state = `${done | (1 << tune)} ${tune}`;
        const known = next.get(state) ?? [];
        for (const way of reached) addUndominated(known, play(tunes, way, tune));
        next.set(state, known);
      }
    }
    ways = next;
  }
  const complete = [...ways].filter(([key]) => Number(key.split(' ')[0]) === all).flatMap(([, each]) => each);
  const best = complete.toSorted(compareWays)[0];
  return best === undefined ? { order: [], breaks: [], changes: 0 } : describeOrder(tunes, best.order);
};

const startOf = ({ first }: TuneLevers): Way => ({ levers: first, changes: 0, order: [] });

/** Sets what the tune needs at its start, and plays it. */
const play = (tunes: readonly TuneLevers[], way: Way, index: number): Way => {
  const tune = tunes[index]!;
  return {
    levers: new Map([...way.levers, ...tune.last]),
    changes: way.changes + changesFor(way.levers, tune).length,
    order: [...way.order, index],
  };
};

/** A string that was not played yet has been set before the start of the set, which costs nothing between tunes. */
const changesFor = (levers: ReadonlyMap<string, boolean>, tune: TuneLevers): readonly BreakChange[] =>
  [...leversToSet(levers, tune)]
    .map(([string, up]) => describeChange(string, up, tune.open))
    .sort(fromLowest);

const describeChange = (string: string, up: boolean, open: TuneLevers['open']): BreakChange => {
  const sign = accidentalSign((open.get(string) ?? 0) + Number(up));
  return { string, up, pitch: `${string.slice(0, 1)}${sign}${string.slice(1)}` };
};

const heightOf = ({ string }: BreakChange): number =>
  Number(string.slice(1)) * LETTERS.length + LETTERS_FROM_C.indexOf(string.slice(0, 1) as Letter);

const fromLowest = (a: BreakChange, b: BreakChange): number => heightOf(a) - heightOf(b);

/** How many levers would have to be set to come from one way to where another stands; infinite where strings are new. */
const distance = (from: Way, to: Way): number => {
  let count = 0;
  for (const [string, up] of to.levers) if (from.levers.get(string) !== up) count += 1;
  return count;
};

const compareWays = (a: Way, b: Way): number => {
  if (a.changes !== b.changes) return a.changes - b.changes;
  const place = a.order.findIndex((tune, index) => tune !== b.order[index]);
  return place < 0 ? 0 : a.order[place]! - b.order[place]!;
};

const addUndominated = (known: Way[], way: Way): void => {
  const isBetter = (a: Way, b: Way): boolean => {
    const dearest = a.changes + distance(a, b);
    return dearest < b.changes || (dearest === b.changes && compareWays(a, b) <= 0);
  };
  if (known.some((other) => isBetter(other, way))) return;
  const kept = known.filter((other) => !isBetter(way, other));
  known.splice(0, known.length, ...kept, way);
};

/** What is set before each tune of an order. */
const describeOrder = (tunes: readonly TuneLevers[], order: readonly number[]): SetOrder => {
  const levers = new Map(leversBefore(order.map((index) => tunes[index]!)));
  // What an earlier tune leaves counts from there on.
  const open = new Map(tunes.flatMap((tune) => [...tune.open]));
  const up = [...levers].filter(([, isUp]) => isUp);
  const breaks = [up.map(([string]) => describeChange(string, true, open)).sort(fromLowest)];
  for (const [place, index] of order.entries()) {
    const tune = tunes[index]!;
    if (place > 0) breaks.push([...changesFor(levers, tune)]);
    for (const [string, up] of tune.last) levers.set(string, up);
  }
  return { order, breaks, changes: breaks.slice(1).reduce((sum, each) => sum + each.length, 0) };
};

/**
 * Puts tunes together that can be played one after the other without a lever set in a break or in a tune, each tune in
 * the first group that it fits into.
 *
 * @returns groups of indices, the largest first
 */
export const groupBySetting = (tunes: readonly TuneLevers[]): readonly (readonly number[])[] => {
  const groups: { readonly levers: Map<string, boolean>; readonly members: number[] }[] = [];
  for (const [index, { first, last }] of tunes.entries()) {
    if ([...first].some(([string, up]) => last.get(string) !== up)) continue;
    const fitting = groups.find(({ levers }) =>
      [...first].every(([string, up]) => (levers.get(string) ?? up) === up),
    );
    const group = fitting ?? { levers: new Map<string, boolean>(), members: [] };
    if (fitting === undefined) groups.push(group);
    for (const [string, up] of first) group.levers.set(string, up);
    group.members.push(index);
  }
  return groups.map(({ members }) => members).sort((a, b) => b.length - a.length);
};

/**
 * Tunes that can be played one after the other with nothing set and nothing retuned: `groupBySetting` among those whose
 * open strings are tuned alike.
 *
 * @returns groups of at least two indices, the largest first
 */
export const tunesTogether = (
  tunes: readonly { readonly tuning: string; readonly levers: TuneLevers }[],
): readonly (readonly number[])[] => {
  const indices = group(tunes.keys(), (index) => tunes[index]!.tuning);
  return [...indices.values()]
    .flatMap((own) =>
      groupBySetting(own.map((index) => tunes[index]!.levers)).map((group) => group.map((i) => own[i]!)),
    )
    .filter((group) => group.length > 1)
    .sort((a, b) => b.length - a.length);
};

import { compare } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import { nameBarOrCount } from '../words/bar-names.ts';
import { nameCount } from '../words/counts.ts';
import { listNames } from '../words/lists.ts';
import { areWhereTheyWere, type FollowedBars } from './follow-bars.ts';
import type { DecisionPin, Decisions, Place } from './model.ts';
import { readFraction } from './places.ts';
import { type DecisionAddress, describeDecision } from './unplaced-decisions.ts';

/** Decisions that went along with their bars. */
export interface FollowedDecisions {
  readonly decisions: Decisions;
  /** Bars, by their indices before and after, whose decisions stand elsewhere now. */
  readonly moved: readonly (readonly [number, number])[];
  /** Those whose bars are gone. */
  readonly gone: readonly Omit<DecisionAddress, 'field'>[];
}

type Span = { readonly from: Place; readonly until: Place | null };

/** Takes the decisions on a score along with its bars. */
export const followDecisions = (decisions: Decisions, bars: FollowedBars): FollowedDecisions => {
  if (areWhereTheyWere(bars)) return { decisions, moved: [], gone: [] };
  const gone: Omit<DecisionAddress, 'field'>[] = [];
  const moved = new Map<number, number>();
  const follow = <T>(
    list: DecisionAddress['list'],
    entries: readonly T[],
    one: (entry: T) => T | null,
  ): T[] =>
    entries.flatMap((entry, index) => {
      const followed = one(entry);
      if (followed === null) gone.push({ list, index });
      return followed === null ? [] : [followed];
    });
  const place = <T extends Place>(entry: T): T | null => {
    const to = barNow(bars, entry.barIndex);
    if (to === null) return null;
    if (to !== entry.barIndex) moved.set(entry.barIndex, to);
    return { ...entry, barIndex: to };
  };
  const edge = (entry: Place): Place => place(entry) ?? nextPlace(bars, entry.barIndex);
  const span = <T extends Span>(entry: T): T | null => {
    const from = edge(entry.from);
    const until = entry.until === null ? null : edge(entry.until);
    return isBefore(from, until ?? bars.end) ? { ...entry, from, until } : null;
  };
  const pin = (entry: DecisionPin): DecisionPin | null => {
    if (entry.kind !== 'move' && entry.kind !== 'lever-move') return span(entry);
    const at = place(entry.at);
    return at === null ? null : { ...entry, at };
  };
  const followed: Decisions = {
    pins: follow('pins', decisions.pins, pin),
    respell: follow('respell', decisions.respell, place),
    omit: follow('omit', decisions.omit, place),
    delays: follow('delays', decisions.delays, place),
    fullSettings: follow('fullSettings', decisions.fullSettings, place),
    cueParts: follow('cueParts', decisions.cueParts, place),
    tempos: follow('tempos', decisions.tempos, span),
  };
  return { decisions: followed, moved: [...moved].sort(([a], [b]) => a - b), gone };
};

/** The bar now; null where it is gone. One that the score never had stays what it is. */
const barNow = ({ to }: FollowedBars, bar: number): number | null => (bar < to.length ? to[bar]! : bar);

/** Where a bar that is gone would begin: at the next one that is still there, or at the end. */
const nextPlace = ({ to, end }: FollowedBars, bar: number): Place => {
  const next = to.slice(bar + 1).find((each) => each !== null);
  return next === undefined ? end : { barIndex: next!, beat: '1' };
};

const isBefore = (a: Place, b: Place): boolean => {
  const [beatA, beatB] = [readFraction(a.beat), readFraction(b.beat)];
  if (a.barIndex !== b.barIndex || beatA === null || beatB === null) return a.barIndex <= b.barIndex;
  return compare(beatA, beatB) < 0;
};

/** What became of decisions, a sentence each; nothing where they are where they were. */
export const describeFollowed = (
  decisions: Decisions,
  { moved, gone }: FollowedDecisions,
  before: Score,
  after: Score,
): readonly string[] => {
  const ways = moved.map(
    ([from, to]) => `bar ${nameBarOrCount(before, from)} to bar ${nameBarOrCount(after, to)}`,
  );
  return [
    ...(ways.length === 0
      ? []
      : [`Decisions went along with ${nameCount(ways.length, 'bar')}: ${listNames(ways)}`]),
    ...gone.map((address) => `${describeDecision(before, decisions, address)} is gone with its bar`),
  ];
};

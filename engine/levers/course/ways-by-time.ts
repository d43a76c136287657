import { perObject } from '../../memoize.ts';
import type { OneTime } from '../../score/bars/one-time.ts';
import { isTurn, type Stretch } from './stretches.ts';

/** A change of a lever at a moment, made at one time of playing, or each time (null) that it finds the lever elsewhere. */
export interface TimedChange {
  readonly moment: number;
  readonly to: number;
  readonly time: OneTime | null;
}

/** A matter of more turns than these is only done alike at all times: the ways to share changes among them are too many. */
export const MOST_TURNS = 4;

/** Turns that are served by one printed change. */
interface SharedTurns {
  readonly turns: readonly Stretch[];
  readonly to: number;
  /** Where all of them can be, with what a change costs there at least, the cheapest first. */
  readonly moments: readonly { readonly moment: number; readonly least: number }[];
}

/**
 * Finds the ways to move a lever once on each stretch on which it has to, and on no other, where what is printed may be
 * for one time of playing alone.
 *
 * Every way that serves all notes holds one of those found, at no higher price: on a stretch that ends as it begins no
 * change is needed, on the others no more than one.
 *
 * @param stretches all that touch each other, with `MOST_TURNS` turns at most; none where all is to be alike
 * @param priceAt at a moment for that time of playing
 * @param budget what a way may cost; asked again for each
 * @param visit answers whether to go on
 */
export const visitWaysByTime = (
  stretches: readonly Stretch[],
  priceAt: (moment: number, time: OneTime | null) => number,
  budget: () => number,
  visit: (changes: readonly TimedChange[], price: number) => boolean,
): void => {
  const leastAt = (moment: number): number =>
    Math.min(priceAt(moment, null), priceAt(moment, 'first'), priceAt(moment, 'later'));
  if (stretches.length === 0) return;
  const leastOf = new Map<number, number>();
  const knownLeastAt = (moment: number): number => {
    const least = leastOf.get(moment) ?? leastAt(moment);
    leastOf.set(moment, least);
    return least;
  };
  for (const common of sharesOf(stretches)) {
    const shares = common.map((share) => priceShare(share, knownLeastAt));
    const rest = shares.map(({ moments }) => moments[0]!.least);
    for (let i = rest.length - 2; i >= 0; i -= 1) rest[i]! += rest[i + 1]!;
    const chosen: number[] = [];
    const choose = (index: number, price: number): boolean => {
      const share = shares[index];
      if (share === undefined) {
        const changes = tellTimes(shares, chosen, stretches);
        if (changes === null) return true;
        const exact = changes.reduce((sum, { moment, time }) => sum + priceAt(moment, time), 0);
        return exact > budget() + 1e-9 || visit(changes, exact);
      }
      for (const { moment, least } of share.moments) {
        if (price + least + (rest[index + 1] ?? 0) > budget() + 1e-9) break;
        chosen.push(moment);
        const goOn = choose(index + 1, price + least);
        chosen.pop();
        if (!goOn) return false;
      }
      return true;
    };
    if (!choose(0, 0)) return;
  }
};

const priceShare = (
  { turns, to, common }: UnpricedShare,
  leastAt: (moment: number) => number,
): SharedTurns => ({
  turns,
  to,
  moments: common.map((moment) => ({ moment, least: leastAt(moment) })).sort((a, b) => a.least - b.least),
});

/** Turns that one printed change can serve, at one of the moments. */
type UnpricedShare = Omit<SharedTurns, 'moments'> & { readonly common: readonly number[] };

/** All ways to let the turns among stretches share changes; the same job is priced again for each course that is tried. */
const sharesOf = perObject((stretches: readonly Stretch[]) => listShares(stretches.filter(isTurn)));

const listShares = (turns: readonly Stretch[]): readonly (readonly UnpricedShare[])[] => {
  let groupings: readonly (readonly (readonly Stretch[])[])[] = [[]];
  for (const turn of turns) {
    groupings = groupings.flatMap((groups) => [
      [...groups, [turn]],
      ...groups.flatMap((group, i) =>
        group[0]!.ends === turn.ends ? [groups.with(i, [...group, turn])] : [],
      ),
    ]);
  }
  return groupings
    .map((groups) =>
      groups.map(([first, ...others]): UnpricedShare => {
        const common = [...first!.times.keys()].filter((moment) =>
          others.every(({ times }) => times.has(moment)),
        );
        return { turns: [first!, ...others], to: first!.ends!, common };
      }),
    )
    .filter((shares) => shares.every(({ common }) => common.length > 0));
};

/**
 * For which time of playing each change has to be told, so that none is made on a stretch that it is not for; null where
 * no words do that, or where two changes of the lever would stand at one place.
 */
const tellTimes = (
  shares: readonly SharedTurns[],
  chosen: readonly number[],
  stretches: readonly Stretch[],
): readonly TimedChange[] | null => {
  const turnedAt = new Map(
    shares.flatMap(({ turns }, i) => turns.map((turn) => [turn, chosen[i]!] as const)),
  );
  const changes: TimedChange[] = [];
  for (const [i, { turns, to }] of shares.entries()) {
    const moment = chosen[i]!;
    if (changes.some((each) => each.moment === moment)) return null;
    const [made, barred] = [
      { first: false, later: false },
      { first: false, later: false },
    ];
    for (const stretch of stretches) {
      const times = stretch.times.get(moment);
      if (times === undefined) continue;
      const isServed = turns.includes(stretch);
      if (!isServed && isHarmless(stretch, moment, to, turnedAt.get(stretch))) continue;
      const told = isServed ? made : barred;
      told.first ||= times.first;
      told.later ||= times.later;
    }
    if ((made.first && barred.first) || (made.later && barred.later)) return null;
    changes.push({ moment, to, time: barred.later ? 'first' : barred.first ? 'later' : null });
    if (barred.first && barred.later) return null;
  }
  return changes;
};

/** Whether a change to a position moves nothing on a stretch, or nothing that is asked for again. */
const isHarmless = (
  { times, begins, ends }: Stretch,
  moment: number,
  to: number,
  turnedAt: number | undefined,
): boolean => {
  if (ends === null) return true;
  // The lever is set beforehand as the stretch ends.
  if (begins === null || begins === ends || turnedAt === undefined) return to === ends;
  if (moment === turnedAt) return false;
  for (const each of times.keys()) {
    if (each === moment) return to === begins;
    if (each === turnedAt) return to === ends;
  }
  return false;
};

import { group } from '../../group.ts';
import { rationalKey } from '../../music/rational.ts';
import { type FewerSearch, fewerInPlaceOf } from '../../pedals/offers/fewer-notes.ts';
import { insteadOf, nameOfPedal } from '../../pedals/offers/instead-of.ts';
import { createTrials } from '../../pedals/offers/trials.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { writtenString } from '../../sounding/needs.ts';
import { type Attempt, changeHands, countStops, planSharesUpTo, shareOf, toldIn } from './planned-shares.ts';
import { type Players, playersTold } from './strands.ts';

/** Notes that are tried by themselves with the first player. */
const MOST_HANDED_BACK = 40;

/** Plans that are made to find other notes than those of one place, and of all places. */
const MOST_PLANS_AT_PLACE = 30;
const MOST_PLANS = 60;

/** Notes of the second player in neighbouring bars may be there for one trouble. */
const BARS_APART = 1;

/**
 * Gives notes of the second player back to the first one by one, the shortest way to fewer where voices and beats are not
 * divided any more finely, and takes fewer others in their place where these serve as well, or as many that fixes would rather
 * give another harp, or that cost both players fewer moves. A note goes back where no more places are unplayable by it; then
 * the division is no longer the one that was proved.
 */
export const handBack = (score: Score, found: Attempt, options: PlanOptions): Attempt => {
  const shares = sharesFrom(score, found, options);
  handBackEach(shares);
  const search = {
    ...firstPlayersPlans(score, shares.playersWith(new Set()), options),
    isOpen: shares.isOpen,
  };
  const budget = { left: MOST_PLANS };
  takeFewer(shares, search, budget);
  const settled = shares.best();
  takeOthers(shares, { ...search, budget });
  // What was needed beside a note may not be beside another.
  if (shares.best() !== settled) handBackEach(shares);
  return shares.best();
};

/** The best division so far, and how it gives way to a better one. */
interface Shares {
  readonly best: () => Attempt;
  /** What the second plucks that nobody is told to play. */
  readonly own: () => readonly Note[];
  readonly isOpen: (id: string) => boolean;
  /** Whose the notes are when these, with all that is tied to them, are the second player's, of those that nobody is told. */
  readonly playersWith: (seconds: ReadonlySet<string>) => ReadonlyMap<string, Players>;
  /**
   * Has the second play these of the open notes where that is better.
   *
   * @param isPreferred whether as many of them are better whatever both players move
   * @returns whether it was
   */
  readonly take: (seconds: Iterable<string>, isPreferred?: boolean) => boolean;
}

const sharesFrom = (score: Score, found: Attempt, options: PlanOptions): Shares => {
  const told = toldIn(score);
  const isOpen = (id: string): boolean => playersTold(told.get(id)) === null;
  const playersWith: Shares['playersWith'] = (seconds) =>
    changeHands(score, found.players, (head) => (isOpen(head) ? (seconds.has(head) ? 2 : 1) : null));
  let best = found;
  return {
    best: () => best,
    own: () => best.second.filter(({ id }) => isOpen(id)),
    isOpen,
    playersWith,
    take: (seconds, isPreferred = false) => {
      const tried = planSharesUpTo(countStops(best), score, playersWith(new Set(seconds)), options);
      if (tried === null) return false;
      const isAsFew = tried.second.length === best.second.length;
      if (!(isPreferred && isAsFew) && compareShares(tried, best) >= 0) return false;
      best = { ...tried, proved: false };
      return true;
    },
  };
};

const idsOf = ({ own }: Shares): readonly string[] => own().map(({ id }) => id);

const without = (shares: Shares, id: string): readonly string[] =>
  idsOf(shares).filter((each) => each !== id);

const handBackEach = (shares: Shares): void => {
  for (const id of idsOf(shares).slice(0, MOST_HANDED_BACK)) shares.take(without(shares, id));
};

const takeFewer = (shares: Shares, search: Omit<FewerSearch, 'budget'>, all: FewerSearch['budget']): void => {
  for (const near of neighbours(shares.own())) {
    const budget = { left: Math.min(all.left, MOST_PLANS_AT_PLACE) };
    all.left -= budget.left;
    const fewer = fewerInPlaceOf(new Set(idsOf(shares)), near, { ...search, budget });
    all.left += budget.left;
    if (fewer !== null) shares.take(fewer);
  }
};

/** Notes for one pedal in neighbouring bars, those of one chord, and single notes are replaced by the other side of their clash. */
const takeOthers = (shares: Shares, search: FewerSearch): void => {
  for (const given of alikeOf(shares.own())) {
    const now = new Set(idsOf(shares));
    if (!given.every(({ id }) => now.has(id))) continue;
    insteadOf(now, given, search).some(({ seconds, isPreferred }) => shares.take(seconds, isPreferred));
  }
};

const alikeOf = (notes: readonly Note[]): readonly (readonly Note[])[] => {
  const runs = [...group(notes, nameOfPedal).values()].flatMap(runsOf);
  const chords = runs.flatMap((run) => [...group(run, ({ onset }) => rationalKey(onset)).values()]);
  const sets = [...runs, ...chords, ...notes.map((note) => [note])];
  return [...new Map(sets.map((set) => [set.map(({ id }) => id).join(' '), set])).values()];
};

/** Fewer notes for the second player first, then fewer moves for both. */
const compareShares = (a: Omit<Attempt, 'proved'>, b: Omit<Attempt, 'proved'>): number =>
  a.second.length - b.second.length || a.moves[0] + a.moves[1] - b.moves[0] - b.moves[1];

/** Plans of the first player who leaves out what the second has: each goes by what it has in common with the one before. */
const firstPlayersPlans = (
  score: Score,
  players: ReadonlyMap<string, Players>,
  options: PlanOptions,
): Pick<FewerSearch, 'score' | 'firstWithout'> => {
  const all = shareOf(score, players, 1).score;
  const trials = createTrials(all, options);
  const byId = notesById(all.notes);
  return {
    score: all,
    firstWithout: (seconds) =>
      trials.planWith(
        [...seconds].map((id) => ({ kind: 'omit', note: id, from: writtenString(byId.get(id)!) })),
      ),
  };
};

/** Notes in bars next to each other, where there are several. */
const neighbours = (notes: readonly Note[]): readonly (readonly Note[])[] =>
  runsOf(notes).filter(({ length }) => length > 1);

const runsOf = (notes: readonly Note[]): readonly (readonly Note[])[] => {
  const runs: Note[][] = [];
  for (const note of notes) {
    const last = runs.at(-1);
    if (last !== undefined && note.bar - last.at(-1)!.bar <= BARS_APART) last.push(note);
    else runs.push([note]);
  }
  return runs;
};

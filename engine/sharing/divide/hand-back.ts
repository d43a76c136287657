import { createTrials } from '../../pedals/offers/trials.ts';
import type { PlanOptions } from '../../pedals/options.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { writtenString } from '../../sounding/needs.ts';
import { headsOfTies } from '../../sounding/ties.ts';
import { type FewerSearch, fewerInPlaceOf, insteadOf } from './fewer-notes.ts';
import { type Attempt, countStops, planSharesUpTo, shareOf, toldIn } from './planned-shares.ts';
import { type Players, playersTold } from './strands.ts';

/** Notes that are tried by themselves with the first player. */
const MOST_HANDED_BACK = 40;

/** Plans that are made to find other notes than those of one place, and of all places. */
const MOST_PLANS_AT_PLACE = 10;
const MOST_PLANS = 30;

/** Notes of the second player in neighbouring bars may be there for one trouble. */
const BARS_APART = 1;

/**
 * Gives notes of the second player back to the first one by one, the shortest way to fewer where voices and beats are not
 * divided any more finely, and takes fewer others in their place where these serve as well. A note goes back where no more
 * places are unplayable by it; then the division is no longer the one that was proved.
 */
export const handBack = (score: Score, found: Attempt, options: PlanOptions): Attempt => {
  const told = toldIn(score);
  const isOpen = (id: string): boolean => playersTold(told.get(id)) === null;
  const heads = headsOfTies(score.notes);
  const begins = (notes: readonly Note[]): readonly Note[] =>
    notes.filter(({ id, tiedFrom }) => tiedFrom === null && isOpen(id));
  /** Whose the notes are when these, with all that is tied to them, are the second player's, of those that nobody is told. */
  const withSeconds = (seconds: ReadonlySet<string>): ReadonlyMap<string, Players> =>
    new Map(
      [...found.players].map(([note, player]): [string, Players] => {
        const head = heads.get(note)!.id;
        return [note, isOpen(head) ? (seconds.has(head) ? 2 : 1) : player];
      }),
    );
  let best = found;
  const take = (seconds: ReadonlySet<string>): boolean => {
    const tried = planSharesUpTo(countStops(best), score, withSeconds(seconds), options);
    const isLess = tried !== null && compareShares(tried, best) < 0;
    if (isLess) best = { ...tried, proved: false };
    return isLess;
  };
  const secondsNow = (): Set<string> => new Set(begins(best.second).map(({ id }) => id));
  const handBackEach = (): void => {
    for (const { id } of begins(best.second).slice(0, MOST_HANDED_BACK)) {
      take(new Set([...secondsNow()].filter((each) => each !== id)));
    }
  };
  handBackEach();
  const search = { ...firstPlayersPlans(score, withSeconds(new Set()), options), isOpen };
  let left = MOST_PLANS;
  for (const near of neighbours(begins(best.second))) {
    const budget = { left: Math.min(left, MOST_PLANS_AT_PLACE) };
    left -= budget.left;
    const fewer = fewerInPlaceOf(secondsNow(), near, { ...search, budget });
    left += budget.left;
    if (fewer !== null) take(fewer);
  }
  const settled = best;
  const budget = { left };
  for (const note of begins(best.second)) {
    for (const other of insteadOf(secondsNow(), note, { ...search, budget })) {
      budget.left -= 1;
      if (budget.left >= 0) take(new Set([...secondsNow()].filter((id) => id !== note.id)).add(other));
    }
  }
  // What was needed beside a note may not be beside another.
  if (best !== settled) handBackEach();
  return best;
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
const neighbours = (notes: readonly Note[]): readonly (readonly Note[])[] => {
  const runs: Note[][] = [];
  for (const note of notes) {
    const last = runs.at(-1);
    if (last !== undefined && note.bar - last.at(-1)!.bar <= BARS_APART) last.push(note);
    else runs.push([note]);
  }
  return runs.filter(({ length }) => length > 1);
};

import { stopPlaces } from '../../findings/count-places.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { buildClock } from '../../score/bars/clock.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import type { Plan } from '../model.ts';
import { candidatesFor } from './note-candidates.ts';

/** What the search asks: whose part it tries, and how. */
export interface FewerSearch {
  /** All that the player may have. */
  readonly score: Score;
  /** Their plan when another has some of these notes, by the ids at which their ties begin. */
  readonly firstWithout: (seconds: ReadonlySet<string>) => Plan;
  /** Whether a note may go to the second player, by what words tell. */
  readonly isOpen: (id: string) => boolean;
  /** Plans that may still be made; each of the first player's part is one. */
  readonly budget: { left: number };
}

/** A stop of a plan, and where. */
export interface Stop {
  readonly finding: PedalFinding;
  readonly place: FindingPlace;
}

/**
 * Fewer notes that serve in place of some that the second player has, or is to be given: other notes of the same clashes. Of
 * two notes that want one pedal either may go, and the one side may be a chord where the other is a note. All of them are
 * handed back; then for each place that this leaves unplayable something that stands in its way goes, in turn each.
 *
 * @param seconds all that the second player has @param near those of them that are to be replaced
 * @returns all that the second player has then; null where nothing smaller was found
 */
export const fewerInPlaceOf = (
  seconds: ReadonlySet<string>,
  near: readonly Note[],
  search: FewerSearch,
): ReadonlySet<string> | null => {
  const rest = new Set([...seconds].filter((id) => !near.some((note) => note.id === id)));
  const known = troublesOf(search.firstWithout(seconds));
  return fewest(rest, near.length - 1, known, search);
};

/**
 * The fewest notes, up to so many, without which a place can be played, and nothing else has become unplayable.
 *
 * @param trouble of the place (`keyOfTrouble`)
 * @returns null where none were found
 */
export const fewestToFree = (
  trouble: string,
  most: number,
  search: FewerSearch,
): ReadonlySet<string> | null => {
  const known = troublesOf(search.firstWithout(new Set()));
  known.delete(trouble);
  return fewest(new Set(), most, known, search);
};

const fewest = (
  seconds: ReadonlySet<string>,
  most: number,
  known: ReadonlySet<string>,
  search: FewerSearch,
): ReadonlySet<string> | null => {
  for (let count = 1; count <= most; count += 1) {
    const found = within(seconds, count, known, search);
    if (found !== null) return found;
  }
  return null;
};

/** Adds as many notes as may be until no stop is left but those that are known. */
const within = (
  seconds: ReadonlySet<string>,
  most: number,
  known: ReadonlySet<string>,
  search: FewerSearch,
): ReadonlySet<string> | null => {
  if (search.budget.left <= 0) return null;
  search.budget.left -= 1;
  const plan = search.firstWithout(seconds);
  const [stop] = newStops(plan, known);
  if (stop === undefined) return seconds;
  for (const notes of waysToFree(search.score, plan, stop)) {
    const gone = notes.filter((id) => !seconds.has(id));
    if (gone.length === 0 || gone.length > most || !gone.every(search.isOpen)) continue;
    const found = within(new Set([...seconds, ...gone]), most - gone.length, known, search);
    if (found !== null) return found;
  }
  return null;
};

/** The keys of all places that a plan leaves unplayable. */
export const troublesOf = ({ findings }: Plan): Set<string> => new Set(stopPlaces(findings).map(keyOf));

/** The places that a plan leaves unplayable beside those that are known. */
export const newStops = ({ findings }: Plan, known: ReadonlySet<string>): readonly Stop[] =>
  stopPlaces(findings).filter((each) => !known.has(keyOf(each)));

/** The notes that may be taken out for a place, the fewest first, by their ids. */
export const waysToFree = (
  score: Score,
  plan: Plan,
  { finding, place }: Stop,
): readonly (readonly string[])[] =>
  candidatesFor(score, plan, finding, place, buildClock(score.tempo))
    .without.map((changes) => changes.map(({ note }) => note))
    .sort((a, b) => a.length - b.length);

const keyOf = ({ finding: { code }, place: { notes } }: Stop): string => keyOfTrouble({ code, notes });

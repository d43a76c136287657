import { group } from '../../group.ts';
import { pitchName, spelledName } from '../../music/pitch.ts';
import type { Note } from '../../score/model/note.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { writtenString } from '../../sounding/needs.ts';
import type { Plan } from '../model.ts';
import { noteOffers } from './describe-offer.ts';
import { type FewerSearch, newStops, troublesOf, waysToFree } from './fewer-notes.ts';
import { allGrowth } from './fix-search.ts';
import { compareOffers } from './fix-weights.ts';
import type { OfferedFix } from './model.ts';
import { leftOut } from './note-candidates.ts';
import { withoutOutdone } from './outdone.ts';

/** Other notes for the second player in place of some. */
export interface Instead {
  /** All that the second player has then. */
  readonly seconds: ReadonlySet<string>;
  /** Whether fixes offer these before those that they replace; else both are offered alike. */
  readonly isPreferred: boolean;
}

/**
 * Notes that the second player may have in place of some, as many of them, with which the same places can be played: the other
 * side of their clashes. Which of them is better is what fixes say of notes for another harp, held against the plan in which
 * these are handed back.
 *
 * @param seconds all that the second player has @param given those of them that may be replaced
 * @returns the best first, none that fixes would offer after those that are given
 */
export const insteadOf = (
  seconds: ReadonlySet<string>,
  given: readonly Note[],
  search: FewerSearch,
): readonly Instead[] => {
  const plan = (all: ReadonlySet<string>): Plan | null => {
    search.budget.left -= 1;
    return search.budget.left < 0 ? null : search.firstWithout(all);
  };
  const own = new Set(given.map(({ id }) => id));
  const rest = new Set([...seconds].filter((id) => !own.has(id)));
  const [now, before] = [plan(seconds), plan(rest)];
  if (now === null || before === null) return [];
  const known = troublesOf(now);
  const others = otherSides(before, known, search).filter(
    (side) => side.size === own.size && [...side].every((id) => search.isOpen(id) && !seconds.has(id)),
  );
  const ways = others.flatMap((side) => {
    const after = plan(new Set([...rest, ...side]));
    return after === null || newStops(after, known).length > 0 ? [] : [{ side, after }];
  });
  const offerOf = (side: ReadonlySet<string>, after: Plan): OfferedFix =>
    givenAway(search, side, before, after);
  const ofOwn = offerOf(own, now);
  const offers = ways.map(({ side, after }) => ({ side, offer: offerOf(side, after) }));
  const good = new Set(withoutOutdone([ofOwn, ...offers.map(({ offer }) => offer)]));
  const order = (offer: OfferedFix): number => (good.has(ofOwn) ? compareOffers(offer, ofOwn) : -1);
  return offers
    .filter(({ offer }) => good.has(offer) && order(offer) <= 0)
    .toSorted((a, b) => compareOffers(a.offer, b.offer))
    .map(({ side, offer }) => ({
      seconds: new Set([...rest, ...side]),
      isPreferred: order(offer) < 0,
    }));
};

/** As fixes offer it: what the plan has more than with the notes handed back. */
const givenAway = (
  { score }: FewerSearch,
  ids: ReadonlySet<string>,
  before: Plan,
  after: Plan,
): OfferedFix => {
  const byId = notesById(score.notes);
  const changes = [...ids].map((id) => leftOut(byId.get(id)!));
  const growth = allGrowth(score, before, after);
  return noteOffers(score, null, changes, growth, new Set()).find(({ kind }) => kind === 'second-harp')!;
};

/** What stands in the way of all stops that are not known, by pitches and by the names of strings in any octave. */
const otherSides = (
  plan: Plan,
  known: ReadonlySet<string>,
  { score }: FewerSearch,
): readonly ReadonlySet<string>[] => {
  const byId = notesById(score.notes);
  const ways = newStops(plan, known).flatMap((stop) => waysToFree(score, plan, stop));
  const keyOf = (ids: readonly string[], name: (note: Note) => string): string =>
    [...new Set(ids.map((id) => name(byId.get(id)!)))].sort().join(' ');
  const alike = [
    ...group(ways, (ids) => keyOf(ids, (note) => pitchName(writtenString(note)))).values(),
    ...group(ways, (ids) => keyOf(ids, nameOfPedal)).values(),
  ];
  const sides = alike.map((same) => [...new Set(same.flat())].sort());
  return [...new Map(sides.map((side) => [side.join(' '), new Set(side)])).values()];
};

/** One pedal in one position serves all of them. */
export const nameOfPedal = (note: Note): string => spelledName(writtenString(note));

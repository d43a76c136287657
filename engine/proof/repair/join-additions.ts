import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { compare, type Rational, rationalKey } from '../../music/rational.ts';
import { REPAIR_PRICES } from '../letter/letter-edits.ts';
import {
  firstNeeding,
  isInside,
  type LetterTrack,
  type MarkingWindow,
  type Statement,
} from '../letter/letter-track.ts';
import type { FixPlace } from '../model.ts';
import { type AddEdit, type Granted, type PartDraft, takeEdits, tryGiven } from './part-draft.ts';
import type { Places } from './place-edits.ts';

/** An edit that a new marking at its best place would make as well. */
interface Wish {
  readonly letter: Letter;
  readonly position: Position;
  readonly isAdded: boolean;
  readonly window: MarkingWindow;
}

/** A wish that is granted at some place. */
interface Share {
  readonly wish: Wish;
  readonly granted: Granted;
}

/** More additions than a few are not joined: where much is missing each change had better stand near its note. */
const MOST_EDITS = 16;

/** Places tried for each wish, and bars over which another may share them. */
const MOST_PLACES = 6;
const MOST_BARS_AHEAD = 16;

/**
 * Prints changes of several pedals as one new marking, where each of them would do as well in a place that they share:
 * a marking left out that said several pedals is one edit, though each pedal alone could be put right otherwise, or
 * nearer to its note.
 */
export const joinAdditions = (draft: PartDraft, places: Places): PartDraft => {
  const all = wishesOf(draft, places.start.at);
  const wishes = all.length > MOST_EDITS ? all.filter(({ isAdded }) => !isAdded) : all;
  if (wishes.length < 2 || wishes.length > MOST_EDITS) return draft;
  let joined = draft;
  const done = new Set<Letter>();
  const grant = grantAt(draft);
  for (const first of wishes) {
    if (done.has(first.letter)) continue;
    const free = wishes.filter(({ letter }) => !done.has(letter));
    const tries = places
      .within(first.letter, first.position, first.window)
      .slice(0, MOST_PLACES)
      .map((place) => ({ place, shares: shareAt(first, free, place, grant) }));
    const { place, shares } = tries.reduce((one, each) =>
      each.shares.length > one.shares.length ? each : one,
    );
    if (!savesEdits(shares)) continue;
    const { at, bar } = place;
    const window: MarkingWindow = { after: at, closed: true, until: at, bar };
    const adds = shares.map(
      ({ wish: { letter, position } }): AddEdit => ({ kind: 'add', letter, position, window }),
    );
    for (const { letter } of adds) done.add(letter);
    joined = takeEdits(
      joined,
      adds,
      shares.map(({ granted }) => granted),
    );
  }
  return joined;
};

/** What several changes that are all new and stand near each other anyway save nothing by. */
const savesEdits = (shares: readonly Share[]): boolean => {
  const [first, ...others] = shares;
  if (first === undefined || others.length === 0) return false;
  return shares.some(({ wish }) => !wish.isAdded || !areNear(first.wish.window, wish.window));
};

const areNear = (one: MarkingWindow, other: MarkingWindow): boolean => {
  const [early, late] = compare(one.until, other.until) <= 0 ? [one, other] : [other, one];
  return isInside(late, early.until) && late.bar - early.bar <= 1;
};

type Grant = (wish: Wish, place: FixPlace) => Share | null;

const shareAt = (first: Wish, wishes: readonly Wish[], place: FixPlace, grant: Grant): readonly Share[] => {
  const own = grant(first, place);
  if (own === null) return [];
  const shares: Share[] = [own];
  for (const wish of wishes) {
    if (shares.some((share) => share.wish.letter === wish.letter) || !mayShare(wish, place)) continue;
    const other = grant(wish, place);
    if (other !== null) shares.push(other);
  }
  return shares;
};

const mayShare = ({ window }: Wish, { at, bar }: FixPlace): boolean =>
  compare(at, window.until) <= 0 && window.bar - bar <= MOST_BARS_AHEAD;

/** What an edit may be less likely, and no more of them. */
const MOST_UNLIKELY = REPAIR_PRICES.edit / 2;

/** Tries a new marking of one pedal: granted where with it the pedal needs an edit less. */
const grantAt = (draft: PartDraft): Grant => {
  const known = new Map<string, Granted>();
  return (wish, { bar, at }) => {
    const { letter, position } = wish;
    const key = `${letter} ${position} ${bar} ${rationalKey(at)}`;
    const granted =
      known.get(key) ?? tryGiven(draft, letter, { also: [{ bar, at, position, inWords: true }] });
    known.set(key, granted);
    const rest = granted.repair;
    const repair = draft.repairs.get(letter)!;
    const isGranted =
      rest.unmet <= repair.unmet && rest.cost + REPAIR_PRICES.edit <= repair.cost + MOST_UNLIKELY;
    return isGranted ? { wish, granted } : null;
  };
};

const wishesOf = ({ tracks, repairs }: PartDraft, start: Rational): readonly Wish[] =>
  [...repairs.values()].flatMap(({ letter, edits }) =>
    edits.flatMap((edit): readonly Wish[] => {
      if (edit.kind === 'remove') return [];
      const position = edit.kind === 'move' ? edit.statement.position : edit.position;
      const window =
        edit.kind === 'alter' ? windowFor(tracks.get(letter)!, edit.statement, position) : edit.window;
      const isAdded = edit.kind === 'add';
      // What is missing at the start is said by one setting in any case.
      if (window === null || (isAdded && isInside(window, start))) return [];
      return [{ letter, position, isAdded, window }];
    }),
  );

/** Where a new marking would serve the next note that wants a position; null where one stands already. */
const windowFor = (track: LetterTrack, { bar, at }: Statement, position: Position): MarkingWindow | null => {
  const step = firstNeeding(track, bar, at, position);
  return step === undefined || step.stated.length > 0 ? null : step.window;
};

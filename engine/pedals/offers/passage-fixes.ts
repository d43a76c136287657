import { FINDINGS } from '../../findings/catalogue.ts';
import { group } from '../../group.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { isSameChange, mergeChanges } from '../fixes/fix-trials.ts';
import { comesFirst, compareOffers } from './fix-weights.ts';
import type { OfferedFix, PassageFix, PassageFixes, PlaceFixes } from './model.ts';
import type { Candidate } from './note-candidates.ts';

/** Fixes that are planned with at all their places at once. */
const MOST_TRIED = 40;

/** The fixes of some places, each taken at all of them; none where the plan with one has lost not all of their troubles. */
export type TryAtAll = (
  places: readonly PlaceFixes[],
  changes: Candidate,
) => {
  readonly offers: readonly OfferedFix[];
  /** Whether a place is mended by them, one of those or another. */
  readonly mends: (place: PlaceFixes) => boolean;
};

/**
 * What is offered alike at several places of a passage, taken at all of them at once: one thing to do, and what it costs
 * then may be much less than place by place.
 *
 * @param runs the places of each finding, as indices of `places`
 * @returns in order of the first place
 */
export const passageFixes = (
  score: Score,
  places: readonly PlaceFixes[],
  runs: readonly (readonly number[])[],
  tryAtAll: TryAtAll,
): readonly PassageFixes[] => {
  let tried = 0;
  const found = runs.flatMap((run) => [
    ...alikeIn(score, places, run).flatMap(({ at, changes }) => {
      tried += 1;
      if (tried > MOST_TRIED) return [];
      const { offers, mends } = tryAtAll(
        at.map((each) => places[each]!),
        changes,
      );
      const mended = run.filter((each) => at.includes(each) || mends(places[each]!));
      const others = mended.length - at.length;
      return offers.map(
        (offer): PassageFix => ({ ...offer, alsoFixes: offer.alsoFixes - others, places: mended }),
      );
    }),
    ...sameIn(places, run),
  ]);
  return joinOverlapping(found)
    .map((offers): PassageFixes => {
      const all = [...new Set(offers.flatMap((offer) => offer.places))].sort((a, b) => a - b);
      const { code } = places[all[0]!]!;
      const sentence = FINDINGS[code].passage!(all.length, false);
      return { code, places: all, sentence, offers: offers.toSorted(inPassageOrder) };
    })
    .sort((a, b) => a.places[0]! - b.places[0]!);
};

/** Of what sounds the same that for most places first; else by the cost of each: one place less is no reason to lose a note. */
const inPassageOrder = (a: PassageFix, b: PassageFix): number => {
  const sameSound = comesFirst(a.kind) && comesFirst(b.kind);
  return (sameSound ? b.places.length - a.places.length : 0) || compareOffers(perPlace(a), perPlace(b));
};

const perPlace = ({ kind, cost, places }: PassageFix) => ({ kind, cost: cost / places.length });

/** Fixes that have places in common are told together: they are ways out of one trouble. */
const joinOverlapping = (found: readonly PassageFix[]): readonly (readonly PassageFix[])[] => {
  let joined: (readonly PassageFix[])[] = [];
  for (const each of found) {
    const meets = (others: readonly PassageFix[]): boolean =>
      others.some(({ places }) => places.some((at) => each.places.includes(at)));
    joined = [...joined.filter((others) => !meets(others)), [...joined.filter(meets).flat(), each]];
  }
  return joined;
};

/** Notes that wait, or a tempo, offered at several places of a run in the same words: one such offer is for all of them. */
const sameIn = (places: readonly PlaceFixes[], run: readonly number[]): readonly PassageFix[] => {
  const each = run.flatMap((at) =>
    places[at]!.offers.flatMap((offer) => ('changes' in offer ? [] : [{ at, offer }])),
  );
  return [...group(each, ({ offer }) => offer.sentence).values()].flatMap((same) => {
    const at = same.map((one) => one.at);
    const { offer } = same[0]!;
    return at.length < 2 ? [] : [{ ...offer, alsoFixes: offer.alsoFixes - (at.length - 1), places: at }];
  });
};

/** Whether an offer of a place is made for a passage too, at all of its places. */
export const isAtAll = (offer: OfferedFix, passages: readonly PassageFixes[]): boolean =>
  passages
    .flatMap(({ offers }) => offers)
    .some((all) =>
      'changes' in all && 'changes' in offer
        ? (all.kind === 'second-harp') === (offer.kind === 'second-harp') &&
          offer.changes.every((change) => all.changes.some((other) => isSameChange(other, change)))
        : all.sentence === offer.sentence,
    );

/** Changes that are offered alike at several places of a run, with those places. */
const alikeIn = (score: Score, places: readonly PlaceFixes[], run: readonly number[]) => {
  const each = run.flatMap((at) =>
    places[at]!.offers.flatMap((offer) =>
      'changes' in offer && offer.kind !== 'second-harp' ? [{ at, changes: offer.changes }] : [],
    ),
  );
  return [...group(each, ({ changes }) => likenessOf(score, changes)).values()].flatMap((alike) => {
    const at = [...new Set(alike.map((one) => one.at))];
    const changes = mergeChanges(alike.map((one) => one.changes));
    return at.length < 2 || changes === null ? [] : [{ at, changes }];
  });
};

/** What becomes of notes, whichever they are and in whatever octave: grace notes are told apart. */
const likenessOf = (score: Score, changes: Candidate): string =>
  changes
    .map((change) => {
      const isGrace = notesById(score.notes).get(change.note)!.grace !== null;
      const { letter, alter, octave } = change.from;
      const to =
        change.kind === 'respell' ? [change.to.letter, change.to.alter, change.to.octave - octave] : [];
      return [isGrace, letter, alter, ...to].join(' ');
    })
    .sort()
    .join(';');

import { FINDINGS } from '../../findings/catalogue.ts';
import { group } from '../../group.ts';
import type { Score } from '../../score/model/score.ts';
import { isSameChange, mergeChanges } from '../fixes/fix-trials.ts';
import { likenessOf } from '../fixes/likeness.ts';
import { comesFirst, compareOffers } from './fix-weights.ts';
import type { OfferedFix, PassageFix, PassageFixes, PlaceFixes } from './model.ts';
import { areSameChanges, type Candidate } from './note-candidates.ts';
import { isNarrower, withoutOutdone } from './outdone.ts';

/** Fixes that are planned with at all their places at once. */
const MOST_TRIED = 40;

/** Whether a place is mended. */
type Mends = (place: PlaceFixes) => boolean;

/** How fixes of places are tried for a passage. */
export interface PassageTrials {
  /** The offers of changes that are taken at all of some places; none where the plan has lost not all of their troubles. */
  readonly atAll: (
    places: readonly PlaceFixes[],
    changes: Candidate,
  ) => { readonly offers: readonly OfferedFix[]; readonly mends: Mends };
  /** What another fix than of notes mends. */
  readonly mendedBy: (offer: OtherFix) => Mends;
  /** Fewer notes left out that serve in place of some; null where none were found. */
  readonly fewerFor: (changes: Candidate) => Candidate | null;
}

/** A fix that changes no notes but their time. */
type OtherFix = Exclude<OfferedFix, { readonly changes: Candidate }>;

/**
 * What is offered alike at several places of a passage, taken at all of them at once: one thing to do, and what it costs
 * then may be much less than place by place.
 *
 * @param runs the places of each finding, as indices of `places`, and what the plan offers for several of them
 * @returns in order of the first place
 */
export const passageFixes = (
  score: Score,
  places: readonly PlaceFixes[],
  runs: readonly Run[],
  trials: PassageTrials,
): readonly PassageFixes[] => {
  let tried = 0;
  const found = runs.flatMap(({ places: run, planned }) => [
    ...withFewer([...planned, ...besides(score, planned, alikeIn(score, places, run))], trials).flatMap(
      ({ at, changes }) => {
        tried += 1;
        if (tried > MOST_TRIED) return [];
        const { offers, mends } = trials.atAll(
          at.map((each) => places[each]!),
          changes,
        );
        const mended = run.filter((each) => at.includes(each) || mends(places[each]!));
        const others = mended.length - at.length;
        return offers.map(
          (offer): PassageFix => ({ ...offer, alsoFixes: offer.alsoFixes - others, places: mended }),
        );
      },
    ),
    ...sameIn(places, run, trials),
  ]);
  return joinOverlapping(found)
    .map((offers): PassageFixes => {
      const all = [...new Set(offers.flatMap((offer) => offer.places))].sort((a, b) => a - b);
      const { code } = places[all[0]!]!;
      const sentence = FINDINGS[code].passage!(all.length, false);
      return { code, places: all, sentence, offers: withoutOutdone(offers).toSorted(inPassageOrder) };
    })
    .sort((a, b) => a.places[0]! - b.places[0]!);
};

/** Of what sounds the same that for most places first; else by the cost of each: one place less is no reason to lose a note. */
const inPassageOrder = (a: PassageFix, b: PassageFix): number => {
  const sameSound = comesFirst(a) && comesFirst(b);
  return (sameSound ? b.places.length - a.places.length : 0) || compareOffers(perPlace(a), perPlace(b));
};

const perPlace = (fix: PassageFix): PassageFix => ({ ...fix, cost: fix.cost / fix.places.length });

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
const sameIn = (
  places: readonly PlaceFixes[],
  run: readonly number[],
  { mendedBy }: PassageTrials,
): readonly PassageFix[] => {
  const each = run.flatMap((at) =>
    places[at]!.offers.flatMap((offer) => ('changes' in offer ? [] : [{ at, offer }])),
  );
  return [...group(each, ({ offer }) => offer.sentence).values()].flatMap((same) => {
    const offered = same.map((one) => one.at);
    const { offer } = same[0]!;
    if (offered.length < 2) return [];
    const mends = mendedBy(offer);
    const at = run.filter((one) => offered.includes(one) || mends(places[one]!));
    return [{ ...offer, alsoFixes: offer.alsoFixes - (at.length - 1), places: at }];
  });
};

/**
 * Whether an offer of a place is made for a passage too, at all of its places, or a tempo for a passage with this place that
 * slows no more bars and is no slower.
 */
export const isAtAll = (offer: OfferedFix, at: number, passages: readonly PassageFixes[]): boolean =>
  passages
    .flatMap(({ offers }) => offers)
    .some((all) => {
      if ('changes' in all && 'changes' in offer)
        return (
          (all.kind === 'second-harp') === (offer.kind === 'second-harp') &&
          offer.changes.every((change) => all.changes.some((other) => isSameChange(other, change)))
        );
      if (all.kind === 'tempo' && offer.kind === 'tempo')
        return all.places.includes(at) && isNarrower(all.tempo, offer.tempo);
      return all.sentence === offer.sentence;
    });

/** The places of a finding (indices), and what is planned for several of them already. */
export interface Run {
  readonly places: readonly number[];
  readonly planned: readonly Alike[];
}

/** Changes for some places. */
interface Alike {
  readonly at: readonly number[];
  readonly changes: Candidate;
}

/** What is not the same as something that is planned for as many places. */
const besides = (score: Score, planned: readonly Alike[], alike: readonly Alike[]): readonly Alike[] =>
  alike.filter(
    ({ at, changes }) =>
      !planned.some(
        (other) =>
          likenessOf(score, other.changes) === likenessOf(score, changes) &&
          at.every((each) => other.at.includes(each)),
      ),
  );

/** With fewer notes left out in place of some, where these serve as well; each set of changes once. */
const withFewer = (alike: readonly Alike[], { fewerFor }: PassageTrials): readonly Alike[] => {
  const all = alike.flatMap((each) => {
    const fewer = each.changes.every(({ kind }) => kind === 'omit') ? fewerFor(each.changes) : null;
    return fewer === null ? [each] : [{ ...each, changes: fewer }, each];
  });
  return all.filter((each, i) => all.findIndex((other) => areSameChanges(other.changes, each.changes)) === i);
};

/**
 * Changes that are offered alike at several places of a run, with those places. Where a note that is left out is doubled at
 * some of them alone, these have a set of their own: it is hardly missed there.
 */
const alikeIn = (score: Score, places: readonly PlaceFixes[], run: readonly number[]): readonly Alike[] => {
  const each = run.flatMap((at) =>
    places[at]!.offers.flatMap((offer) =>
      'changes' in offer && offer.kind !== 'second-harp'
        ? [{ at, changes: offer.changes, isDoubled: offer.kind === 'leave-out-doubled' }]
        : [],
    ),
  );
  const groups = [...group(each, ({ changes }) => likenessOf(score, changes)).values()];
  return [...groups.map((alike) => alike.filter(({ isDoubled }) => isDoubled)), ...groups].flatMap(
    (alike) => {
      const at = [...new Set(alike.map((one) => one.at))];
      const changes = mergeChanges(alike.map((one) => one.changes));
      return at.length < 2 || changes === null ? [] : [{ at, changes }];
    },
  );
};

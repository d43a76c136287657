import type { PedalFinding } from '../../findings/catalogue.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { nameString } from '../../harp/scordatura.ts';
import { formatChange } from '../../harp/setting.ts';
import { areDeepEqual } from '../../memoize.ts';
import { midiOf, pitchName } from '../../music/pitch.ts';
import { buildClock } from '../../score/bars/clock.ts';
import type { Score } from '../../score/model.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { isSameChange } from '../fixes/fix-trials.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import { describeChanges } from '../fixes/note-fixes.ts';
import type { Plan, StringTuning } from '../model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../options.ts';
import { planPedals } from '../plan.ts';
import { FIX_COST, MOVE_COST, TUNING_COST, WARNING_COST } from './fix-weights.ts';
import type { FixKind, OfferedFix, PartFixes, PlaceFixes } from './model.ts';
import { areDoubled, type Candidate, candidatesFor, doubleOf } from './note-candidates.ts';
import { findTempoLimit, followTempo } from './tempo.ts';
import { countWarnings, createTrials, isRemoved, type OfferTrials } from './trials.ts';

/** Places that are looked at, in the order of the page, where it is not said how many. */
const MOST_PLACES = 40;

/** Sets of notes that are planned with for one place. */
const MOST_TRIALS = 24;

/** Where a slower tempo helps. */
const CODE_OF_TIME: PedalFinding['code'] = 'foot-too-busy';

/**
 * Searches for every place that cannot be played the smallest fixes: notes respelled, an octave away or
 * left out, a slower tempo, notes for a second harp. Each is planned with, and offered only where the trouble is gone
 * and nothing else has become unplayable.
 *
 * Makes some thirty plans for a place.
 *
 * @param mostPlaces how many places are looked at; of a part with more the answer says how many were not
 */
export const listFixes = (
  score: Score,
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
  mostPlaces = MOST_PLACES,
): PartFixes => {
  const plan = planPedals(score, options);
  const trials = createTrials(score, options);
  const places = plan.findings
    .filter(({ severity }) => severity === 'stop')
    .flatMap((finding) => finding.places.map((place) => ({ finding, place })));
  const quick = trials.planWith([]);
  return {
    places: places
      .slice(0, mostPlaces)
      .map(({ finding, place }) => fixesAt({ score, plan, before: quick, trials }, finding, place)),
    untried: Math.max(0, places.length - mostPlaces),
    tempo: followTempo(score, quick, trials),
  };
};

interface Search {
  readonly score: Score;
  /** With the fixes of its findings. */
  readonly plan: Plan;
  /** What trials are held against. */
  readonly before: Plan;
  readonly trials: OfferTrials;
}

const fixesAt = (search: Search, finding: PedalFinding, place: FindingPlace): PlaceFixes => {
  const { score, plan, before, trials } = search;
  const { code } = finding;
  const trouble = keyOfTrouble({ code, notes: place.notes });
  const { found, octaves, without } = candidatesFor(score, plan, finding, place, buildClock(score.tempo));
  const offers: OfferedFix[] = [];
  for (const changes of distinct([...found, ...octaves, ...without]).slice(0, MOST_TRIALS)) {
    const after = trials.planWith(changes);
    if (!isRemoved(trouble, before, after)) continue;
    const growth = {
      moreMoves: after.moves.length - before.moves.length,
      moreWarnings: countWarnings(after) - countWarnings(before),
    };
    offers.push(...offersOf(score, changes, { ...growth, tuned: newTunings(before, after) }));
  }
  const tempo = code === CODE_OF_TIME ? findTempoLimit(score, place.bar, trouble, before, trials) : null;
  if (tempo !== null) offers.push(tempoOffer(score, tempo));
  const { bar, barNumber, beat, notes, sentence } = place;
  return { code, bar, barNumber, beat, notes, sentence, offers: bestOfEach(offers) };
};

/** Strings without discs that a plan has tuned, and the one before it has not. */
const newTunings = (before: Plan, after: Plan): readonly StringTuning[] =>
  after.tunings.filter((tuning) => !before.tunings.some((known) => areDeepEqual(known, tuning)));

const distinct = (candidates: readonly Candidate[]): readonly Candidate[] =>
  candidates.filter((each, i) => candidates.findIndex((other) => areSameChanges(other, each)) === i);

const areSameChanges = (a: Candidate, b: Candidate): boolean =>
  a.length === b.length && a.every((change) => b.some((other) => isSameChange(change, other)));

const kindOf = (score: Score, changes: Candidate): FixKind => {
  if (changes.every((each) => each.kind === 'omit'))
    return areDoubled(score, changes) ? 'leave-out-doubled' : 'leave-out';
  if (changes.some((each) => each.kind === 'omit')) return 'leave-out';
  return changes.some(isOctave) ? 'octave' : 'respell';
};

const isOctave = (change: NoteChange): boolean =>
  change.kind === 'respell' && midiOf(change.from) !== midiOf(change.to);

/** What a plan has more than the one before. */
interface Growth extends Pick<OfferedFix, 'moreMoves' | 'moreWarnings'> {
  readonly tuned: readonly StringTuning[];
}

const costOf = ({ moreMoves, moreWarnings, tuned }: Growth): number =>
  MOVE_COST * Math.max(0, moreMoves) + WARNING_COST * Math.max(0, moreWarnings) + TUNING_COST * tuned.length;

/** What is left out may be given to a second harp as well. */
const offersOf = (score: Score, changes: Candidate, growth: Growth): readonly OfferedFix[] => {
  const kind = kindOf(score, changes);
  const { moreMoves, moreWarnings, tuned } = growth;
  const sentence = [describeChanges(changes, score), ...tuned.map(describeTuning)].join(' ');
  const offer: OfferedFix = {
    kind,
    sentence,
    heard: heardOf(score, kind, changes),
    changes,
    tempo: null,
    moreMoves,
    moreWarnings,
    cost: FIX_COST[kind] * changes.length + costOf(growth),
  };
  const isLeftOut = changes.every((each) => each.kind === 'omit');
  if (!isLeftOut) return [offer];
  const second: OfferedFix = {
    ...offer,
    kind: 'second-harp',
    sentence: sentence.replaceAll('Leave out the', 'Give a second harp the'),
    heard: 'Nothing.',
    cost: FIX_COST['second-harp'] * changes.length + costOf(growth),
  };
  return [offer, second];
};

/** “Tune the string D1, which has no disc, to D♯ before the piece.” */
const describeTuning = ({ string, alter }: StringTuning): string =>
  `Tune the string ${nameString(string)}, which has no disc, to ${formatChange(string.letter, alter)} before the piece.`;

const heardOf = (score: Score, kind: FixKind, changes: Candidate): string => {
  const names = (list: readonly NoteChange[]): string => list.map(({ from }) => pitchName(from)).join(', ');
  switch (kind) {
    case 'octave': {
      const [moved] = changes.filter(isOctave);
      const up = moved?.kind === 'respell' && midiOf(moved.to) > midiOf(moved.from);
      return `${names(changes.filter(isOctave))} sounds an octave ${up ? 'higher' : 'lower'}.`;
    }
    case 'leave-out-doubled': {
      const out = new Set(changes.map(({ note }) => note));
      const byId = new Map(score.notes.map((note) => [note.id, note]));
      const others = changes.map(({ note }) => pitchName(doubleOf(score, byId.get(note)!, out)!.pitch));
      return `Little: ${[...new Set(others)].join(', ')} sounds at the same time.`;
    }
    case 'leave-out': {
      const out = changes.filter((each) => each.kind === 'omit');
      return `${names(out)} ${out.length === 1 ? 'is' : 'are'} missing.`;
    }
    default:
      return 'Nothing.';
  }
};

const tempoOffer = (score: Score, tempo: NonNullable<OfferedFix['tempo']>): OfferedFix => {
  const { quartersPerMinute, written, bars, moreMoves, moreWarnings } = tempo;
  const numbers = [bars.first, bars.last].map((bar) => score.bars[bar]!.number);
  const where = bars.first === bars.last ? `bar ${numbers[0]}` : `bars ${numbers.join(' to ')}`;
  return {
    kind: 'tempo',
    sentence: `Play ${where} no faster than ♩ = ${quartersPerMinute}.`,
    heard: `It is slower: ♩ = ${quartersPerMinute} in place of ${Math.round(written * 10) / 10}.`,
    changes: [],
    tempo,
    moreMoves,
    moreWarnings,
    cost:
      FIX_COST.tempo * Math.max(1, 100 * (1 - quartersPerMinute / written)) +
      costOf({ moreMoves, moreWarnings, tuned: [] }),
  };
};

/** Ways of one kind that are offered, none at more than so many times the cost of the best. */
const MOST_OF_A_KIND = 2;
const MOST_TIMES_THE_BEST = 2;

const bestOfEach = (offers: readonly OfferedFix[]): readonly OfferedFix[] => {
  const taken = new Map<FixKind, { readonly best: number; readonly count: number }>();
  return [...offers]
    .sort((a, b) => a.cost - b.cost)
    .filter(({ kind, cost }) => {
      const { best, count } = taken.get(kind) ?? { best: cost, count: 0 };
      taken.set(kind, { best, count: count + 1 });
      return count < MOST_OF_A_KIND && cost <= MOST_TIMES_THE_BEST * best;
    });
};

import type { Setting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { compare, equals } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import type { Score, SourceMarking } from '../score/model.ts';
import type { Need } from '../sounding/needs.ts';
import { createRivalSearch } from '../sounding/rival-needs.ts';
import type { Moments } from '../time/moments.ts';
import { chooseFix } from './choose-fix.ts';
import { type FixPlaces, findFixPlaces } from './fix-places.ts';
import { type Contradiction, contradictionKey } from './marking-faults.ts';
import type { Failure, MarkingPlayback, NeedFault, PedalTask } from './marking-playback.ts';
import type { MarkingFix } from './model.ts';
import { addedFaults, lateKey, type Trials } from './trials.ts';

/** Proposes changes to markings: each list is made as a whole, and empty where no change is known to fix it. */
export interface FixFinder {
  /** None where a rival at the same time forbids it. */
  readonly fixFailure: (failure: Failure) => readonly MarkingFix[];
  /** For the notes before any marking: the full setting with which the part should begin. */
  readonly fixStart: () => readonly MarkingFix[];
  readonly fixLate: (task: PedalTask) => readonly MarkingFix[];
  /** For the markings and all that goes wrong by them. */
  readonly fixContradiction: (contradiction: Contradiction) => readonly MarkingFix[];
  readonly fixRedundant: (marking: number, letter: Letter) => readonly MarkingFix[];
  /** So much is wrong that no more fixes are tried: what has none may have one all the same. */
  readonly hasGivenUp: () => boolean;
  /** Another note that needs the pedal elsewhere at the same time. */
  readonly rivalOf: (need: Need) => Need | undefined;
}

/** What fixes are sought from. */
export interface FixFinderInput {
  readonly score: Score;
  readonly needs: readonly Need[];
  readonly moments: Moments;
  readonly performance: MarkingPlayback;
  readonly contradictions: readonly Contradiction[];
  readonly trials: Trials;
  /** The plan for the notes alone; asked for only where it is needed. */
  readonly plan: () => Plan;
}

export const createFixFinder = (facts: FixFinderInput): FixFinder => {
  const { score, needs, moments, performance, contradictions, trials, plan } = facts;
  const places = findFixPlaces(score, needs, plan);
  // What a glissando asks for is judged by the key alone: a marking may say otherwise.
  const rivalOf = createRivalSearch(
    needs.filter(({ kind }) => kind !== 'swept'),
    moments,
  );
  const addFor = ({ need, landedIn }: NeedFault): readonly MarkingFix[] => {
    const landing = landedIn === null ? [] : [places.startOf(landedIn)];
    const { letter, position } = need;
    return [...landing, ...places.before(need)].map((place) => ({ kind: 'add', letter, position, ...place }));
  };
  const choose = (
    letter: Letter | null,
    faultsToFix: readonly string[],
    candidates: readonly (readonly MarkingFix[])[],
  ): readonly MarkingFix[] => chooseFix({ letter, faultsToFix, candidates, addFor }, trials);
  const fixedContradictions = new Map<Contradiction, readonly MarkingFix[]>();
  const fixContradiction = (contradiction: Contradiction): readonly MarkingFix[] => {
    const known = fixedContradictions.get(contradiction);
    if (known !== undefined) return known;
    const { letter, first, second } = contradiction;
    const blamed = performance.failures.filter(
      (failure) => failure.letter === letter && (failure.marking === first || failure.marking === second),
    );
    const faultsToFix = [
      contradictionKey(letter, score.markings[first]!.at),
      ...blamed.flatMap(({ faults }) => faults),
    ];
    const fixes = choose(letter, faultsToFix, settleContradiction(score, contradiction, places));
    fixedContradictions.set(contradiction, fixes);
    return fixes;
  };
  return {
    rivalOf,
    hasGivenUp: trials.isExhausted,
    fixContradiction,
    fixFailure: (failure) => {
      const { letter, marking, faults } = failure;
      if (!failure.whileHeld && rivalOf(failure.needs[0]!) !== undefined) return [];
      const disputed = contradictions.find(
        (each) => each.letter === letter && (each.first === marking || each.second === marking),
      );
      if (disputed !== undefined) return fixContradiction(disputed);
      return choose(letter, faults, fixesOfFailure(score, failure, places));
    },
    fixStart: () => {
      const faultsToFix = [...performance.needFaults]
        .filter(([, { need }]) => performance.unstated.includes(need))
        .map(([key]) => key);
      const place = places.startOf(score.playOrder[0] ?? 0);
      const { initial } = plan();
      const start = score.markings.filter((marking) => equals(marking.at, place.at));
      return choose(
        null,
        faultsToFix,
        [agreeWith(start, initial), initial].map((setting) => [{ kind: 'add-setting', setting, ...place }]),
      );
    },
    fixLate: (task) => {
      const faultsToFix = [lateKey(task)];
      const own = choose(task.letter, faultsToFix, movesOf(score, task, places));
      if (own.length > 0) return own;
      const neighbours = neighboursOf(task, performance.tasks);
      return choose(
        null,
        faultsToFix,
        neighbours.flatMap((other) => movesOf(score, other, places)),
      );
    },
    fixRedundant: (marking, letter) => {
      const fix: MarkingFix = { kind: 'remove', marking, letter };
      const before = trials.before(letter);
      const after = trials.after([fix], letter);
      return after !== null && addedFaults(before, after).length === 0 ? [fix] : [];
    },
  };
};

/** The change elsewhere, still in time for its note. */
const movesOf = (
  score: Score,
  { marking, letter, before }: PedalTask,
  places: FixPlaces,
): readonly (readonly MarkingFix[])[] =>
  places
    .before(before)
    .filter(({ at }) => !equals(at, score.markings[marking]!.at))
    .map((place) => [{ kind: 'move', marking, letter, ...place }]);

/** As many other changes of a foot as are tried to give way to one. */
const NEIGHBOURS_TRIED = 2;

/** The changes of other pedals that the same foot makes nearest in time. */
const neighboursOf = (task: PedalTask, tasks: readonly PedalTask[]): readonly PedalTask[] =>
  tasks
    .filter(({ foot, letter }) => foot === task.foot && letter !== task.letter)
    .sort((a, b) => Math.abs(a.deadline - task.deadline) - Math.abs(b.deadline - task.deadline))
    .slice(0, NEIGHBOURS_TRIED);

/** Moving a marking that is early or late, adding one, altering one, taking one out: in this order. */
const fixesOfFailure = (
  score: Score,
  failure: Failure,
  places: FixPlaces,
): readonly (readonly MarkingFix[])[] => {
  const { letter, wanted, needs, stands, marking, landedIn, whileHeld } = failure;
  const need = needs[0]!;
  const lastNeed = needs.at(-1)!;
  const wantedLater = places.nextNeed(letter, stands, lastNeed.onset);
  const later = [
    ...(whileHeld ? [places.at(need.heldUntil)] : []),
    ...(wantedLater === undefined ? [] : places.before(wantedLater)),
  ].filter(({ at }) => compare(at, score.markings[marking]!.at) > 0);
  const tooLate = score.markings.findIndex(
    ({ at, positions }) => positions[letter] === wanted && compare(at, need.onset) >= 0,
  );
  const landing = landedIn === null ? [] : [places.startOf(landedIn)];
  const before = [...landing, ...places.before(need)];
  const fixes: readonly MarkingFix[] = [
    ...later.map((place): MarkingFix => ({ kind: 'move', marking, letter, ...place })),
    ...(tooLate < 0
      ? []
      : before.map((place): MarkingFix => ({ kind: 'move', marking: tooLate, letter, ...place }))),
    ...before.map((place): MarkingFix => ({ kind: 'add', letter, position: wanted, ...place })),
    { kind: 'alter', marking, letter, position: wanted },
    { kind: 'remove', marking, letter },
  ];
  return fixes.map((fix) => [fix]);
};

/** One of the two is for a later note, or it goes, and the other may say something else. */
const settleContradiction = (
  score: Score,
  { letter, first, second }: Contradiction,
  places: FixPlaces,
): readonly (readonly MarkingFix[])[] => {
  const without = (marking: number): MarkingFix => ({ kind: 'remove', marking, letter });
  const later = [second, first].flatMap((marking) => {
    const { at, positions } = score.markings[marking]!;
    const need = places.nextNeed(letter, positions[letter]!, at);
    return (need === undefined ? [] : places.before(need))
      .filter((place) => compare(place.at, at) > 0)
      .map((place): MarkingFix[] => [{ kind: 'move', marking, letter, ...place }]);
  });
  const elsewhere = ([-1, 0, 1] as const).map((position): MarkingFix[] => [
    without(first),
    { kind: 'alter', marking: second, letter, position },
  ]);
  return [...later, [without(second)], [without(first)], ...elsewhere];
};

/** A setting that says what the markings at its place say. */
const agreeWith = (markings: readonly SourceMarking[], setting: Setting): Setting =>
  Object.assign({}, setting, ...markings.map(({ positions }) => positions));

import type { Setting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { compare, equals } from '../music/rational.ts';
import type { Plan } from '../pedals/model.ts';
import type { Score, SourceMarking } from '../score/model.ts';
import type { Need } from '../sounding/needs.ts';
import { createRivalSearch } from '../sounding/rivals.ts';
import type { Moments } from '../time/moments.ts';
import { chooseMend } from './choose-mend.ts';
import { type Contradiction, contradictionKey } from './marking-faults.ts';
import { findMendPlaces, type MendPlaces } from './mend-places.ts';
import type { Mend } from './model.ts';
import type { Failure, NeedFault, PedalTask, Performance } from './played.ts';
import { addedFaults, lateKey, type Trials } from './trial.ts';

/** Proposes changes to markings: each list is made as a whole, and empty where no change is known to mend it. */
export interface Mender {
  /** None where a rival at the same time forbids it. */
  readonly mendFailure: (failure: Failure) => readonly Mend[];
  /** For the notes before any marking: the full setting with which the part should begin. */
  readonly mendStart: () => readonly Mend[];
  readonly mendLate: (task: PedalTask) => readonly Mend[];
  /** For the markings and all that goes wrong by them. */
  readonly mendContradiction: (contradiction: Contradiction) => readonly Mend[];
  readonly mendNeedless: (marking: number, letter: Letter) => readonly Mend[];
  /** So much is wrong that no more mends are tried: what has none may have one all the same. */
  readonly hasGivenUp: () => boolean;
  /** Another note that needs the pedal elsewhere at the same time. */
  readonly rivalOf: (need: Need) => Need | undefined;
}

/** What mends are sought from. */
export interface MendFacts {
  readonly score: Score;
  readonly needs: readonly Need[];
  readonly moments: Moments;
  readonly performance: Performance;
  readonly contradictions: readonly Contradiction[];
  readonly trials: Trials;
  /** The plan for the notes alone; asked for only where it is needed. */
  readonly plan: () => Plan;
}

export const startMender = (facts: MendFacts): Mender => {
  const { score, needs, moments, performance, contradictions, trials, plan } = facts;
  const places = findMendPlaces(score, needs, plan);
  // What a glissando asks for is judged by the key alone: a marking may say otherwise.
  const rivalOf = createRivalSearch(
    needs.filter(({ kind }) => kind !== 'swept'),
    moments,
  );
  const addFor = ({ need, landedIn }: NeedFault): readonly Mend[] => {
    const landing = landedIn === null ? [] : [places.startOf(landedIn)];
    const { letter, position } = need;
    return [...landing, ...places.before(need)].map((place) => ({ kind: 'add', letter, position, ...place }));
  };
  const choose = (
    letter: Letter | null,
    cure: readonly string[],
    candidates: readonly (readonly Mend[])[],
  ): readonly Mend[] => chooseMend({ letter, cure, candidates, addFor }, trials);
  const mended = new Map<Contradiction, readonly Mend[]>();
  const mendContradiction = (contradiction: Contradiction): readonly Mend[] => {
    const known = mended.get(contradiction);
    if (known !== undefined) return known;
    const { letter, first, second } = contradiction;
    const blamed = performance.failures.filter(
      (failure) => failure.letter === letter && (failure.marking === first || failure.marking === second),
    );
    const cure = [
      contradictionKey(letter, score.markings[first]!.at),
      ...blamed.flatMap(({ faults }) => faults),
    ];
    const mends = choose(letter, cure, settleContradiction(score, contradiction, places));
    mended.set(contradiction, mends);
    return mends;
  };
  return {
    rivalOf,
    hasGivenUp: trials.isSpent,
    mendContradiction,
    mendFailure: (failure) => {
      const { letter, marking, faults } = failure;
      if (!failure.whileHeld && rivalOf(failure.needs[0]!) !== undefined) return [];
      const disputed = contradictions.find(
        (each) => each.letter === letter && (each.first === marking || each.second === marking),
      );
      if (disputed !== undefined) return mendContradiction(disputed);
      return choose(letter, faults, mendsOfFailure(score, failure, places));
    },
    mendStart: () => {
      const cure = [...performance.needFaults]
        .filter(([, { need }]) => performance.unstated.includes(need))
        .map(([key]) => key);
      const place = places.startOf(score.playOrder[0] ?? 0);
      const { initial } = plan();
      const start = score.markings.filter((marking) => equals(marking.at, place.at));
      return choose(
        null,
        cure,
        [agreeWith(start, initial), initial].map((setting) => [{ kind: 'add-setting', setting, ...place }]),
      );
    },
    mendLate: (task) => {
      const cure = [lateKey(task)];
      const own = choose(task.letter, cure, movesOf(score, task, places));
      if (own.length > 0) return own;
      const neighbours = neighboursOf(task, performance.tasks);
      return choose(
        null,
        cure,
        neighbours.flatMap((other) => movesOf(score, other, places)),
      );
    },
    mendNeedless: (marking, letter) => {
      const mend: Mend = { kind: 'remove', marking, letter };
      const before = trials.before(letter);
      const after = trials.after([mend], letter);
      return after !== null && addedFaults(before, after).length === 0 ? [mend] : [];
    },
  };
};

/** The change elsewhere, still in time for its note. */
const movesOf = (
  score: Score,
  { marking, letter, before }: PedalTask,
  places: MendPlaces,
): readonly (readonly Mend[])[] =>
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
const mendsOfFailure = (score: Score, failure: Failure, places: MendPlaces): readonly (readonly Mend[])[] => {
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
  const mends: readonly Mend[] = [
    ...later.map((place): Mend => ({ kind: 'move', marking, letter, ...place })),
    ...(tooLate < 0
      ? []
      : before.map((place): Mend => ({ kind: 'move', marking: tooLate, letter, ...place }))),
    ...before.map((place): Mend => ({ kind: 'add', letter, position: wanted, ...place })),
    { kind: 'alter', marking, letter, position: wanted },
    { kind: 'remove', marking, letter },
  ];
  return mends.map((mend) => [mend]);
};

/** One of the two is for a later note, or it goes, and the other may say something else. */
const settleContradiction = (
  score: Score,
  { letter, first, second }: Contradiction,
  places: MendPlaces,
): readonly (readonly Mend[])[] => {
  const without = (marking: number): Mend => ({ kind: 'remove', marking, letter });
  const later = [second, first].flatMap((marking) => {
    const { at, positions } = score.markings[marking]!;
    const need = places.nextNeed(letter, positions[letter]!, at);
    return (need === undefined ? [] : places.before(need))
      .filter((place) => compare(place.at, at) > 0)
      .map((place): Mend[] => [{ kind: 'move', marking, letter, ...place }]);
  });
  const elsewhere = ([-1, 0, 1] as const).map((position): Mend[] => [
    without(first),
    { kind: 'alter', marking: second, letter, position },
  ]);
  return [...later, [without(second)], [without(first)], ...elsewhere];
};

/** A setting that says what the markings at its place say. */
const agreeWith = (markings: readonly SourceMarking[], setting: Setting): Setting =>
  Object.assign({}, setting, ...markings.map(({ positions }) => positions));

import { KEY_TUNINGS, type OpenTuning, openAlter, tuningName } from '../../harp/open-tuning.ts';
import { isInRange } from '../../harp/profile.ts';
import { POSITIONS, settingFrom } from '../../harp/setting.ts';
import { lazy } from '../../memoize.ts';
import { LETTERS, type Letter, pitchClass } from '../../music/pitch.ts';
import type { LeverContext } from '../context.ts';
import type { TuningCost } from '../model.ts';
import {
  buildLeverProblem,
  countClashes,
  countLeastChanges,
  type LeverProblem,
  listJobs,
  listStrings,
  placeNeeds,
  tunedStringsKey,
} from '../problem.ts';
import type { PitchNeed } from '../strings/asked.ts';
import { chooseStrings, leverFor, otherLeverStrings } from '../strings/strings.ts';
import type { LeverWeights } from '../weights.ts';

/** What a tuning would cost the piece. */
export const costTuning = (context: LeverContext, problem: LeverProblem): TuningCost => {
  const { tuning, chosen, strings, subproblems } = problem;
  const { profile } = context.options;
  return {
    tuning,
    name: tuningName(tuning),
    missingNotes:
      chosen.notInTuning.length + chosen.outOfRange.length + chosen.microtones.length + countClashes(strings),
    changes: countLeastChanges(subproblems),
    respelled: chosen.respellings.length + chosen.ornamentRespellings.length,
    retuned: strings.filter(({ string }) => openAlter(tuning, string) !== openAlter(profile.tuning, string))
      .length,
    // A lever stands at first as the first note of its string asks.
    leversUp: strings.filter(
      ({ needs, choices }) => (needs[0]?.need.position ?? choices.at[context.graph.start]?.[0]) === 1,
    ).length,
  };
};

/** The figures by which tunings are ranked. */
export type Rank = Pick<TuningCost, 'tuning' | 'missingNotes' | 'changes' | 'respelled' | 'retuned'>;

/**
 * Negative where `a` serves the piece better: notes that fail come first, then changes and what else has a price, then
 * respelled notes, then strings to retune.
 */
export const compareTunings =
  ({ change }: LeverWeights, priceOf: (of: Rank) => number = () => 0) =>
  (a: Rank, b: Rank): number =>
    a.missingNotes - b.missingNotes ||
    change * (a.changes - b.changes) + (priceOf(a) - priceOf(b)) ||
    a.respelled - b.respelled ||
    a.retuned - b.retuned;

/** The harp's custom and the 15 key signatures. */
export const keyTunings = ({ options: { profile } }: LeverContext): readonly OpenTuning[] => [
  ...new Map([profile.tuning, ...KEY_TUNINGS].map((tuning) => [tuningName(tuning), tuning])).values(),
];

/** The harp's custom with one letter tuned otherwise. */
export const nearTunings = ({ options: { profile } }: LeverContext): readonly OpenTuning[] => {
  const { letters, exceptions } = profile.tuning;
  return LETTERS.flatMap((letter) =>
    POSITIONS.filter((alter) => alter !== letters[letter]).map(
      (alter): OpenTuning => ({ letters: { ...letters, [letter]: alter }, exceptions }),
    ),
  );
};

/** All tunings that make each letter flat, natural or sharp, and the harp's custom before them. */
export const allTunings = ({ options: { profile } }: LeverContext): readonly OpenTuning[] => [
  profile.tuning,
  ...Array.from({ length: 3 ** LETTERS.length }, (_, code): OpenTuning => {
    const alters = new Map(LETTERS.map((letter, i) => [letter, POSITIONS[Math.floor(code / 3 ** i) % 3]!]));
    return { letters: settingFrom((letter) => alters.get(letter)!), exceptions: [] };
  }),
];

/**
 * The best of bounded tunings with what each costs, the best first; of equal ones the first named is first. Exact: in
 * the order of their bounds each is costed in full, until no bound that is left is better than the last of the best. Notes
 * on neighbouring strings can save changes that the bounds count: so it is exact only where all are wanted.
 *
 * @param most how many are wanted
 * @param keyOf of tunings with one key only the best is taken
 */
export const pickTunings = (
  tunings: readonly BoundedTuning[],
  order: ReturnType<typeof compareTunings>,
  most: number,
  keyOf: (tuning: BoundedTuning) => string = ({ place }) => `${place}`,
): TuningCost[] => {
  let best: { readonly cost: TuningCost; readonly place: number; readonly key: string }[] = [];
  for (const tuning of tunings.toSorted((a, b) => order(a.bound, b.bound))) {
    const last = best[most - 1];
    if (last !== undefined && order(last.cost, tuning.bound) < 0) break;
    best.push({ cost: tuning.cost(), place: tuning.place, key: keyOf(tuning) });
    best = best
      .sort((a, b) => order(a.cost, b.cost) || a.place - b.place)
      .filter(({ key }, i) => best.findIndex((each) => each.key === key) === i)
      .slice(0, most);
  }
  return best.map(({ cost }) => cost);
};

/** What no plan in any of some tunings can better, by the bounds of `boundTuningCosts`: cheap. */
export const boundBestTuning = (
  context: LeverContext,
  tunings: readonly OpenTuning[],
): Pick<TuningCost, 'missingNotes' | 'changes'> => {
  const order = compareTunings(context.weights);
  return boundTuningCosts(context, tunings)
    .map(({ bound }) => bound)
    .reduce((best, bound) => (order(bound, best) < 0 ? bound : best));
};

/** A tuning with what it costs at least. */
export interface BoundedTuning {
  readonly bound: Rank;
  /** Among the tunings that are looked at. */
  readonly place: number;
  /** Worked out when first asked for. */
  readonly cost: () => TuningCost;
  /** The strings that are played (see `tunedStringsKey`). */
  readonly strings: () => string;
}

/**
 * Bounds from counts by letter: the notes that no string could give, the changes of each letter's notes as written, the
 * notes to be respelled and the strings to be retuned.
 */
export const boundTuningCosts = (context: LeverContext, tunings: readonly OpenTuning[]): BoundedTuning[] => {
  const byLetter = new Map(LETTERS.map((letter) => [letter, costLetter(context, letter)]));
  const { inside, outside } = partByRange(context);
  const classes = countClasses(inside);
  const boundOf = (tuning: OpenTuning): Rank => {
    // Strings tuned apart from their letter could do better than the letter: such a tuning is costed in any case.
    if (tuning.exceptions.length > 0) return { ...NOTHING, tuning };
    const { letters } = tuning;
    const costs = LETTERS.map((letter) => byLetter.get(letter)![letters[letter] + 1]!);
    const given = new Set(
      LETTERS.flatMap((letter) =>
        [0, 1].map((raised) => pitchClass({ letter, alter: letters[letter] + raised })),
      ),
    );
    const isWritten = ({ letter, alter }: AskedClass): boolean =>
      alter === letters[letter] || alter === letters[letter] + 1;
    const missingNotes = classes.filter(({ chroma }) => !given.has(chroma));
    const respelled = classes.filter((each) => given.has(each.chroma) && !isWritten(each));
    const total = (figures: readonly number[]): number => figures.reduce((sum, each) => sum + each, 0);
    return {
      tuning,
      missingNotes: outside + total(missingNotes.map(({ count }) => count)),
      changes: total(costs.map(({ changes }) => changes)),
      respelled: total(respelled.map(({ count }) => count)),
      retuned: total(costs.map(({ retuned }) => retuned)),
    };
  };
  return tunings.map((tuning, place) => {
    const work = lazy(() => {
      const problem = buildLeverProblem(context, tuning);
      return { cost: costTuning(context, problem), strings: tunedStringsKey(problem) };
    });
    return { bound: boundOf(tuning), place, cost: () => work().cost, strings: () => work().strings };
  });
};

const NOTHING: Omit<Rank, 'tuning'> = { missingNotes: 0, changes: 0, respelled: 0, retuned: 0 };

/** Pins can only add changes. */
const NO_PINS: ReadonlyMap<number, ReadonlyMap<number, 0 | 1>> = new Map();

/** For each open tuning of a letter: the least changes of its notes as written, and its strings to retune. */
const costLetter = (context: LeverContext, letter: Letter) =>
  POSITIONS.map((alter) => {
    const { profile } = context.options;
    const tuning: OpenTuning = { letters: settingFrom(() => alter), exceptions: [] };
    const asked = context.pitchNeeds.filter(
      ({ pitch }) => pitch.letter === letter && leverFor(pitch, tuning, profile) !== null,
    );
    const placed = placeNeeds(chooseStrings(asked, tuning, profile).needs, context);
    const strings = listStrings(placed, context.findChoices, NO_PINS);
    return {
      changes: countLeastChanges(listJobs(strings)),
      retuned: strings.filter(({ string }) => openAlter(profile.tuning, string) !== alter).length,
    };
  });

interface AskedClass {
  readonly letter: Letter;
  readonly alter: number;
  /** Semitones above C, fractional for microtones. */
  readonly chroma: number;
  readonly count: number;
}

/** The pitches for which the harp has a string, whatever its tuning, and the number of those for which it has none. */
const partByRange = ({ pitchNeeds: asked, options: { profile } }: LeverContext) => {
  const inside = asked.filter(({ pitch }) =>
    [pitch, ...otherLeverStrings(pitch)].some((string) => isInRange(profile, string)),
  );
  return { inside, outside: asked.length - inside.length };
};

/** How often each spelled pitch class is asked for. */
const countClasses = (asked: readonly PitchNeed[]): AskedClass[] => {
  const counted = new Map<string, AskedClass>();
  for (const { pitch } of asked) {
    const { letter, alter } = pitch;
    const key = `${letter}${alter}`;
    const known = counted.get(key) ?? {
      letter,
      alter,
      chroma: pitchClass(pitch),
      count: 0,
    };
    counted.set(key, { ...known, count: known.count + 1 });
  }
  return [...counted.values()];
};

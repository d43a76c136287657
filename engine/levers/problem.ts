import { group } from '../group.ts';
import { type OpenTuning, openAlter } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { letterAtStep, pitchName, stepOf } from '../music/pitch.ts';
import { spanOf } from '../sounding/need-span.ts';
import type { LeverContext } from './context.ts';
import type { FindLeverChoices, LeverChoices } from './course/lever-choices.ts';
import { isSinglePath, type LeverSubproblem, leastPrice } from './course/subproblems.ts';
import { useNeighbours } from './strings/neighbours.ts';
import { type PinnedLevers, placeLeverPins } from './strings/pinned-levers.ts';
import { chooseStrings, type LeverNeed, type PlacedLeverNeed, type StringChoice } from './strings/strings.ts';
import type { LeverWeights } from './weights.ts';

/** One string that is played, and where its lever may stand. */
export interface PlayedString {
  readonly string: HarpString;
  /** In order of moment. */
  readonly needs: readonly PlacedLeverNeed[];
  readonly choices: LeverChoices;
}

/** A piece in one tuning: which strings are played, and what is to be decided about their levers. */
export interface LeverProblem {
  readonly tuning: OpenTuning;
  readonly chosen: StringChoice;
  /** From the lowest. */
  readonly strings: readonly PlayedString[];
  readonly subproblems: readonly LeverSubproblem[];
  /** What the user fixed. */
  readonly pinned: PinnedLevers;
}

/**
 * The piece in a tuning, each note on its own string where that gives it; but on a neighbour where that saves changes
 * of the levers, or two pitches at once on one string, and is better on the whole.
 */
export const buildLeverProblem = (context: LeverContext, tuning: OpenTuning): LeverProblem => {
  const { pitchNeeds, moments, options, weights } = context;
  const { profile, respelled } = options;
  const written = chooseStrings(pitchNeeds, tuning, profile);
  const plain = problemWith(context, tuning, written);
  if (plain.subproblems.length === 0 && countClashes(plain.strings) === 0) return plain;
  const search = { tuning, profile, moments, weights, chosen: new Set(respelled.keys()) };
  const onNeighbours = useNeighbours(written, search);
  if (onNeighbours === written) return plain;
  const other = problemWith(context, tuning, onNeighbours);
  return priceOf(other, weights) < priceOf(plain, weights) ? other : plain;
};

const priceOf = ({ chosen, strings, subproblems }: LeverProblem, weights: LeverWeights): number =>
  weights.noString * countClashes(strings) +
  weights.change * countLeastChanges(subproblems) +
  weights.neighbourNote * chosen.respellings.length;

const problemWith = (context: LeverContext, tuning: OpenTuning, chosen: StringChoice): LeverProblem => {
  const { options, moments, findChoices } = context;
  const placed = placeNeeds(chosen.needs, context);
  const pinned = placeLeverPins(options.pins, placed, moments, options.profile);
  const strings = listStrings(placed, findChoices, pinned.positions);
  const subproblems = listJobs(strings);
  return { tuning, chosen, strings, subproblems, pinned };
};

/** Needs by the step of their string, each in order of moment. */
export const placeNeeds = (
  needs: readonly LeverNeed[],
  { moments }: LeverContext,
): ReadonlyMap<number, readonly PlacedLeverNeed[]> => {
  const placed = needs.flatMap((need) => {
    const { first, last } = spanOf(need, moments);
    return Array.from({ length: last - first + 1 }, (_, i): PlacedLeverNeed => ({ need, moment: first + i }));
  });
  const byString = group(placed, ({ need }) => stepOf(need));
  for (const there of byString.values()) there.sort((a, b) => a.moment - b.moment);
  return byString;
};

/** The strings that are played, and those whose levers are pinned. */
export const listStrings = (
  needs: ReadonlyMap<number, readonly PlacedLeverNeed[]>,
  findChoices: FindLeverChoices,
  pinned: PinnedLevers['positions'],
): PlayedString[] =>
  [...new Set([...needs.keys(), ...pinned.keys()])]
    .sort((a, b) => a - b)
    .map((step) => {
      const there = needs.get(step) ?? [];
      return {
        string: letterAtStep(step),
        needs: there,
        choices: findChoices(there, pinned.get(step)),
      };
    });

/** What is to be decided about all levers. */
export const listJobs = (strings: readonly PlayedString[]): LeverSubproblem[] =>
  strings.flatMap(({ choices }, string) => choices.jobs.map((job) => ({ ...job, string })));

/** The strings that are played, with their tuning: where these are the same, so is all that is to be decided. */
export const tunedStringsKey = ({ tuning, strings }: LeverProblem): string =>
  strings.map(({ string }) => pitchName({ ...string, alter: openAlter(tuning, string) })).join(' ');

/** The fewest changes that would do if the hands needed no time. */
export const countLeastChanges = (subproblems: readonly LeverSubproblem[]): number =>
  subproblems.reduce(
    (sum, subproblem) => sum + (isSinglePath(subproblem) ? 1 : leastPrice(subproblem, () => 1)),
    0,
  );

/** How often a string is asked for two pitches at one moment, and so fails one of its notes. */
export const countClashes = (strings: readonly PlayedString[]): number =>
  strings.reduce((sum, { needs }) => {
    let clashes = 0;
    for (let i = 0; i < needs.length; ) {
      const { moment } = needs[i]!;
      const counts: [number, number] = [0, 0];
      for (; needs[i]?.moment === moment; i += 1) counts[needs[i]!.need.position] += 1;
      clashes += Math.min(...counts);
    }
    return sum + clashes;
  }, 0);

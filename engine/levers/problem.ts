import { groups } from 'd3-array';
import { type OpenTuning, openAlter } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { letterAtStep, pitchName, stepOf } from '../music/pitch.ts';
import { choicesOf } from '../sounding/choices.ts';
import { spanOf } from '../sounding/need-span.ts';
import type { PlacedNeed } from '../sounding/placed-needs.ts';
import { isStraight, type Job, leastPrice, listJobs } from './course/jobs.ts';
import type { LeverStage } from './stage.ts';
import { chooseStrings, type LeverNeed, type StringChoice } from './strings/strings.ts';

/** A need at one moment; a trill or a glissando needs its string at every moment of its span. */
export interface PlacedLeverNeed extends PlacedNeed {
  readonly need: LeverNeed;
}

/** One string that is played, and where its lever may stand. */
export interface PlayedString {
  readonly string: HarpString;
  /** In order of moment. */
  readonly needs: readonly PlacedLeverNeed[];
  /** Positions worth considering by moment: 0 down, 1 up. */
  readonly choices: readonly (readonly number[])[];
}

/** A piece in one tuning: which strings are played, and what is to be decided about their levers. */
export interface LeverProblem {
  readonly tuning: OpenTuning;
  readonly chosen: StringChoice;
  /** From the lowest. */
  readonly strings: readonly PlayedString[];
  readonly jobs: readonly Job[];
}

export const poseLevers = (stage: LeverStage, tuning: OpenTuning): LeverProblem => {
  const chosen = chooseStrings(stage.asked, tuning, stage.options.profile);
  const strings = listStrings(chosen.needs, stage);
  const jobs = strings.flatMap(({ choices }, i) => listJobs(i, choices, stage.graph));
  return { tuning, chosen, strings, jobs };
};

export const listStrings = (needs: readonly LeverNeed[], { moments, graph }: LeverStage): PlayedString[] => {
  const placed = needs.flatMap((need) => {
    const { first, last } = spanOf(need, moments);
    return Array.from({ length: last - first + 1 }, (_, i): PlacedLeverNeed => ({ need, moment: first + i }));
  });
  return groups(placed, ({ need }) => stepOf(need))
    .sort(([a], [b]) => a - b)
    .map(([step, there]) => {
      there.sort((a, b) => a.moment - b.moment);
      return { string: letterAtStep(step), needs: there, choices: choicesOf(there, graph, 0).at };
    });
};

/** The strings that are played, with their tuning: where these are the same, so is all that is to be decided. */
export const nameStrings = ({ tuning, strings }: LeverProblem): string =>
  strings.map(({ string }) => pitchName({ ...string, alter: openAlter(tuning, string) })).join(' ');

/** The fewest changes that would do if the hands needed no time. */
export const countLeastChanges = (jobs: readonly Job[]): number =>
  jobs.reduce((sum, job) => sum + (isStraight(job) ? 1 : leastPrice(job, () => 1)), 0);

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

import type { FootTask } from './foot-changes.ts';
import type { FootPositions } from './foot-positions.ts';
import { advanceTime, type FootState } from './foot-state.ts';
import { advanceStates, nothingCanHappen } from './foot-steps.ts';

/** Which of the states at a moment are worth following. */
export type StateFilter = (moment: number, states: readonly FootState[]) => readonly FootState[];

/** All that the search for a foot's course goes by from a moment on. */
export interface SearchStop {
  /** The states after the moment before. */
  readonly states: readonly FootState[];
  /** Seconds for which nothing could happen, which the states have not yet aged by; null where none went by. */
  readonly asleep: number | null;
}

/** A search with what it came to on its way. */
export interface SearchTrace {
  readonly choices: readonly (readonly FootPositions[])[];
  /** Before every `MOMENTS_A_STOP`th moment, the first included. */
  readonly stops: readonly SearchStop[];
  /** The states after the last moment. */
  readonly end: readonly FootState[];
}

/** Near enough to begin close to any change, far enough apart to be few. */
export const MOMENTS_A_STOP = 32;

const AT_START: SearchStop = { states: [], asleep: null };

/** Follows a foot through the moments in printed order. */
export const search = (task: FootTask, choices: SearchTrace['choices'], keep: StateFilter): SearchTrace => {
  const stops: SearchStop[] = [];
  const end = searchOn(task, choices, keep, 0, AT_START, (stop) => {
    stops.push(stop);
    return true;
  });
  return { choices, stops, end: end! };
};

/**
 * Follows a foot from a stop on.
 *
 * @param goesOn asked at every stop, the first included, whether to go on there
 * @returns the states after the last moment; null where it did not go on to there
 */
export const searchOn = (
  task: FootTask,
  choices: SearchTrace['choices'],
  keep: StateFilter,
  from: number,
  { states: first, asleep: sleeping }: SearchStop,
  goesOn: (stop: SearchStop, moment: number) => boolean,
): readonly FootState[] | null => {
  const { graph, footRestSeconds: restSeconds, spacing } = task;
  let [states, asleep] = [first, sleeping];
  for (let moment = from; moment < graph.moments; moment += 1) {
    if (moment % MOMENTS_A_STOP === 0 && !goesOn({ states, asleep }, moment)) return null;
    if (nothingCanHappen(graph, choices, moment)) {
      asleep = (asleep ?? 0) + graph.into[moment]![0]!.seconds;
      continue;
    }
    if (asleep !== null) {
      const slept = asleep;
      states = states.map((state) => advanceTime(state, slept, restSeconds, spacing.comfortableSeconds));
    }
    asleep = null;
    states = keep(moment, advanceStates(task, moment, choices[moment]!, states));
  }
  return states;
};

import type { Progress, Stage } from '../job.ts';

/** Tells when stages begin, and keeps how long each took. */
export interface StageClock {
  readonly begin: (stage: Stage, bars: number | null) => void;
  /** Ends the stage that runs. @returns seconds by stage */
  readonly stop: () => Readonly<Partial<Record<Stage, number>>>;
}

export const startStageClock = (onProgress: (progress: Progress) => void): StageClock => {
  const seconds: Partial<Record<Stage, number>> = {};
  let running: { readonly stage: Stage; readonly since: number } | null = null;
  const end = (): void => {
    if (running === null) return;
    seconds[running.stage] = (seconds[running.stage] ?? 0) + (performance.now() - running.since) / 1000;
    running = null;
  };
  return {
    begin: (stage, bars) => {
      end();
      running = { stage, since: performance.now() };
      onProgress({ stage, bars });
    },
    stop: () => {
      end();
      return seconds;
    },
  };
};

/** For work that nobody watches. */
export const IGNORE_PROGRESS = (): void => {};

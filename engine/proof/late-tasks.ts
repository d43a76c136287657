import { isEarlier } from '../time/rested.ts';

/** A pedal change that one foot has to make: not before its marking is reached, not after a note asks for it. */
export interface TimedFootTask {
  /** Seconds from the start of the performance. */
  readonly release: number;
  readonly deadline: number;
}

/**
 * The tasks that a foot cannot do in time, each taking it `restSeconds`.
 *
 * The foot does the most urgent of the changes it has read; it lets one wait that has time where a more urgent one is
 * about to come. What comes too late is told, and those behind it are judged as if it had been done in time: of changes
 * that crowd each other each is told for itself. Tasks must be given in order of release.
 *
 * @returns each task that comes too late, and by how many seconds
 */
export const findLateTasks = <T extends TimedFootTask>(
  tasks: readonly T[],
  restSeconds: number,
): { readonly task: T; readonly lateSeconds: number }[] => {
  const late: { task: T; lateSeconds: number }[] = [];
  const read: T[] = [];
  let free = Number.NEGATIVE_INFINITY;
  let next = 0;
  while (next < tasks.length || read.length > 0) {
    if (read.length === 0) free = Math.max(free, tasks[next]!.release);
    while (next < tasks.length && !isEarlier(free, tasks[next]!.release)) read.push(tasks[next++]!);
    read.sort((a, b) => a.deadline - b.deadline);
    const task = read[0]!;
    const coming = tasks[next];
    if (coming !== undefined && mustWait(task, coming, free, restSeconds)) {
      free = coming.release;
      continue;
    }
    read.shift();
    if (!isEarlier(task.deadline, free)) free += restSeconds;
    else {
      late.push({ task, lateSeconds: free - task.deadline });
      free = Math.max(free, task.deadline + restSeconds);
    }
  }
  return late;
};

/** Whether doing `task` now makes `coming` late, while it can as well be done after it. */
const mustWait = (task: TimedFootTask, coming: TimedFootTask, now: number, rest: number): boolean =>
  isEarlier(coming.release, now + rest) &&
  isEarlier(coming.deadline, now + rest) &&
  !isEarlier(task.deadline, coming.release + rest);

import { group } from '../../group.ts';
import type { LeverTask, ScheduledLeverChange } from './lever-task.ts';
import { groupLinked } from './linked.ts';
import { type GroupSchedule, scheduleSubproblems } from './schedule-group.ts';
import { momentOfSlot } from './slots.ts';
import type { LeverSubproblem } from './subproblems.ts';

/** What is done to all levers of a harp through a piece. */
export interface LeverSchedule {
  /** In order of moment; at one moment from the lowest string. */
  readonly moves: readonly ScheduledLeverChange[];
  readonly cost: number;
  /** Whether it was proved that no course is cheaper. */
  readonly provenOptimal: boolean;
}

interface Group {
  readonly jobs: readonly LeverSubproblem[];
  readonly course: GroupSchedule;
}

/**
 * The cheapest course of all levers, exact as long as `provenOptimal` says so.
 *
 * Each job is done as if it were alone; jobs that come into each other's way are put together and done as one, until
 * none do. That the whole is then the cheapest follows from two facts: together, jobs cost at least the sum of what
 * they cost apart, since others can only take the hands' time; and where no change of one group comes too soon after
 * one of another in the same hand, or is too soon in its own group already, the whole costs just that sum.
 */
export const findLeverSchedule = (
  subproblems: readonly LeverSubproblem[],
  task: LeverTask,
): LeverSchedule => {
  let groups: readonly Group[] = subproblems.map((subproblem) => buildGroup([subproblem], task));
  for (;;) {
    const joined = joinGroups(groups, task);
    if (joined.length === groups.length) break;
    groups = joined.map((parts) =>
      parts.length === 1
        ? parts[0]!
        : buildGroup(
            parts.flatMap((part) => part.jobs),
            task,
          ),
    );
  }
  return {
    moves: groups
      .flatMap(({ course }) => course.moves)
      .sort((a, b) => momentOfSlot(a.slot) - momentOfSlot(b.slot) || a.string - b.string),
    cost: groups.reduce((sum, { course }) => sum + course.cost, 0),
    provenOptimal: groups.every(({ course }) => course.provenOptimal),
  };
};

const buildGroup = (subproblems: readonly LeverSubproblem[], task: LeverTask): Group => ({
  jobs: subproblems,
  course: scheduleSubproblems(subproblems, task),
});

/** The groups, those together that hinder each other. */
const joinGroups = (groups: readonly Group[], { tooSoonAfter: near }: LeverTask): Group[][] => {
  const there = group(
    groups.flatMap(({ course }, i) => course.moves.map((move) => ({ group: i, move }))),
    ({ move }) => move.slot,
  );
  return groupLinked(groups, (link) => {
    for (const [slot, here] of there) {
      const soon = [...near(slot).keys()].flatMap((later) => there.get(later) ?? []);
      for (const { group, move } of here) {
        const hindered = [...soon, ...here.filter((other) => other.move.string > move.string)];
        for (const other of hindered) {
          if (!other.move.tooSoon) link(other.group, group);
        }
      }
    }
  });
};

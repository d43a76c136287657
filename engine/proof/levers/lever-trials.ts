import type { LeverContext } from '../../levers/context.ts';
import type { MarkingFix } from '../model.ts';
import { addedFaults, type TrialOutcome } from '../trials.ts';
import { findHandTroubles, type HandTrouble, type LeverTask, troubleKey } from './hands-in-time.ts';
import type { LeverGroup } from './lever-edits.ts';
import type { StringPart } from './string-parts.ts';

/** What comes of the part by its markings with some edits made. */
export interface LeverOutcome {
  /** By string: null for those that no edit touches. */
  readonly of: (step: number) => TrialOutcome;
  /** Changes for which no hand has time. */
  readonly troubles: readonly HandTrouble[];
  /** Faults of all strings, and troubles of the hands. */
  readonly faults: number;
}

/** A fault that edits bring, by the string it is on; of the hands where `key` is null. */
export interface AddedFault {
  readonly step: number;
  readonly onset: number | null;
}

export interface LeverTrials {
  readonly after: (groups: readonly Pick<LeverGroup, 'views'>[]) => LeverOutcome;
  /** The first fault that some edits bring; null where they bring none. */
  readonly firstAdded: (groups: readonly Pick<LeverGroup, 'views'>[]) => AddedFault | null;
}

/** Plays all strings with edits made: each by itself, and then the hands. */
export const startLeverTrials = (parts: readonly StringPart[], context: LeverContext): LeverTrials => {
  const before = new Map(parts.map((part) => [part.step, part.trials.before(null)] as const));
  const known = new Map<string, TrialOutcome>();
  const partOf = new Map(parts.map((part) => [part.step, part]));
  const outcomeOf = (step: number, fixes: readonly MarkingFix[]): TrialOutcome => {
    if (fixes.length === 0) return before.get(step)!;
    const key = `${step} ${JSON.stringify(fixes)}`;
    const outcome = known.get(key) ?? partOf.get(step)!.trials.prove(fixes);
    known.set(key, outcome);
    return outcome;
  };
  const after = (groups: readonly Pick<LeverGroup, 'views'>[]): LeverOutcome => {
    const made = new Map<number, MarkingFix[]>();
    for (const { step, fixes } of groups.flatMap(({ views }) => views))
      made.set(step, [...(made.get(step) ?? []), ...fixes]);
    const outcomes = new Map(parts.map(({ step }) => [step, outcomeOf(step, made.get(step) ?? [])] as const));
    const troubles = findHandTroubles(
      [...outcomes].flatMap(([step, outcome]) => tasksOf(step, outcome)),
      context,
    );
    const failed = [...outcomes.values()].reduce((sum, { faults }) => sum + faults.size, 0);
    return { of: (step) => outcomes.get(step)!, troubles, faults: failed + troubles.length };
  };
  let own: LeverOutcome | null = null;
  return {
    after,
    firstAdded: (groups) => {
      own ??= after([]);
      const outcome = after(groups);
      for (const { step } of parts) {
        const [key] = addedFaults(before.get(step)!, outcome.of(step));
        if (key === undefined) continue;
        const { need } = outcome.of(step).faults.get(key)!;
        return { step, onset: need === null ? null : need.need.onset.num / need.need.onset.den };
      }
      const wrong = own.troubles.map(troubleKey);
      const failing = new Set(
        parts.flatMap(({ step }) =>
          [...before.get(step)!.faults.values()].flatMap(({ need }) =>
            need === null ? [] : [`${step} for ${need.need.note.id} ${need.pass}`],
          ),
        ),
      );
      const trouble = outcome.troubles.find((each) => {
        const key = troubleKey(each);
        // A note that was wrong anyway is no worse for a hand that comes too late.
        return !wrong.includes(key) && !failing.has(key);
      });
      if (trouble === undefined) return null;
      const { onset } = trouble.task.before;
      return { step: trouble.step, onset: onset.num / onset.den };
    },
  };
};

const tasksOf = (step: number, { tasks, fixed }: TrialOutcome): readonly LeverTask[] =>
  tasks.map((task) => ({ step, task, at: fixed.markings[task.marking]!.at }));

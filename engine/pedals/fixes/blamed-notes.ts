import { perObject } from '../../memoize.ts';
import { createRivalSearch } from '../../sounding/rival-needs.ts';
import type { ChangedPlan } from './changed-plan.ts';
import type { PlannedPart } from './fix-trials.ts';

/** Notes of which the plan that is told says that one pedal cannot serve them together, by id. */
const blamedNotes = perObject(
  ({ prepared: { moments }, problem, solution: { unmet } }: PlannedPart): ReadonlySet<string> => {
    if (unmet.length === 0) return new Set();
    const rivalOf = createRivalSearch(problem.listed.needs, moments);
    return new Set(
      unmet.flatMap((need) => {
        const rival = rivalOf(need);
        return rival === undefined ? [need.note.id] : [need.note.id, rival.note.id];
      }),
    );
  },
);

/**
 * Whether a changed plan blames no other notes than the plan that is told: of two notes in each other's way it is the same
 * trouble, whichever of them finds its pedal elsewhere.
 */
export const blamesNoOther = ({ unmet }: Pick<ChangedPlan, 'unmet'>, told: PlannedPart): boolean => {
  const blamed = blamedNotes(told);
  return unmet.every(({ note }) => blamed.has(note.id));
};

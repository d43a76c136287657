import type { PedalFinding } from '../../findings/model.ts';
import { LETTERS } from '../../music/pitch.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { type Bearing, needsByNote } from './bearing.ts';
import { type PlannedPart, pinsAt } from './fix-trials.ts';
import type { TroubledPlace } from './note-fixes.ts';
import { MOMENTS_AROUND, type Span, spanAround } from './passage.ts';
import { isSameAround } from './same-place.ts';

/**
 * The music that the trials for a finding go by: what is otherwise outside it is nothing to them. Null for the whole
 * part: where a trial bears on more than its own notes, or a jump stands in its way.
 */
export type Reach =
  | (Span & {
      /** Pins give way to notes far off as well. */
      readonly isPinned: boolean;
    })
  | null;

/** @param tried all changes that may have been tried for it */
export const reachOf = (
  part: PlannedPart,
  { finding, place }: { readonly finding: PedalFinding; readonly place: TroubledPlace | null },
  tried: readonly (readonly NoteChange[])[],
  bearingOf: (changes: readonly NoteChange[]) => Bearing,
): Reach => {
  const { prepared, problem } = part;
  const { graph, moments } = problem.context;
  for (const bearing of tried.map(bearingOf)) {
    if (bearing.kind === 'far') return null;
    if (bearing.kind === 'local' && spanAround(graph, bearing.first, bearing.last) === null) return null;
  }
  const byId = notesById(prepared.score.notes);
  const needsOf = needsByNote(problem.needs);
  const about = (place?.about ?? []).map(({ note }) => note.id);
  const changed = tried.flatMap((changes) => changes.map(({ note }) => note));
  const at = [...finding.notes, ...about, ...changed].flatMap((id) => [
    moments.ofNote(byId.get(id)!),
    ...(needsOf.get(id) ?? []).map(({ moment }) => moment),
  ]);
  if (place !== null) at.push(place.moment);
  const span = {
    from: Math.max(0, Math.min(...at) - MOMENTS_AROUND),
    until: Math.min(graph.moments, Math.max(...at) + MOMENTS_AROUND + 1),
    freeStart: false,
    freeEnd: false,
  };
  return { ...span, isPinned: pinsAt(part, span, LETTERS).length > 0 };
};

/** Whether all within a reach is the same in another part. */
export const isSameWithin = (reach: Reach, a: PlannedPart, b: PlannedPart): boolean =>
  reach !== null &&
  !reach.isPinned &&
  a.problem.listed === b.problem.listed &&
  a.problem.needs === b.problem.needs &&
  a.prepared.options.spelling === b.prepared.options.spelling &&
  isSameAround(a, b, reach);

/** Findings of which none has fixes that bear on those of another group, in their order. */
export const groupByReach = <Tried extends { readonly reach: Reach }>(
  tried: readonly Tried[],
): readonly (readonly Tried[])[] => {
  const near = tried.flatMap((each, rank) =>
    each.reach === null ? [] : [{ each, rank, reach: each.reach }],
  );
  if (near.length < tried.length) return [tried];
  const groups: (typeof near)[] = [];
  let end = -1;
  for (const one of near.toSorted((a, b) => a.reach.from - b.reach.from)) {
    if (one.reach.from < end) groups.at(-1)!.push(one);
    else groups.push([one]);
    end = Math.max(end, one.reach.until);
  }
  const isPinned = (group: typeof near): boolean => group.some(({ reach }) => reach.isPinned);
  return [...groups.filter((group) => !isPinned(group)), groups.filter(isPinned).flat()]
    .filter((group) => group.length > 0)
    .map((group) => group.sort((a, b) => a.rank - b.rank).map(({ each }) => each));
};

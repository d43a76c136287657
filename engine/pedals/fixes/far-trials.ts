import { FEET, type Foot } from '../../harp/setting.ts';
import { SIDES } from '../../harp/side.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { changeNeeds } from '../../sounding/changed-needs.ts';
import type { NeedsByLetter, PlacedNeed } from '../../sounding/placed-needs.ts';
import { crossFeet } from '../course/cross-feet.ts';
import { solveFeet } from '../course/solve.ts';
import { buildPedalProblem, type PedalProblem, prepareScore } from '../pedal-problem.ts';
import type { Bearing } from './bearing.ts';
import { asTold, type ChangedPlan, type LocalPlan, positionsAtEnds, putInto } from './changed-plan.ts';
import { notesLost, type PlannedPart, planPlace, type Stretch, stringsOf } from './fix-trials.ts';
import { cutPassage, spanAround } from './passage.ts';

/** A plan with changes that bear on more than their own notes, and the notes that no string gives then. */
export interface FarTrial {
  readonly plan: ChangedPlan;
  /** What the feet do around all that is other; null where that is nothing, or the whole. */
  readonly local: LocalPlan | null;
  readonly lost: ReadonlySet<string>;
  /** Moments that had to be planned. */
  readonly planned: number;
}

/**
 * Lists anew what the notes ask for, and plans the music around all that is other than by a plan; the whole part where a
 * jump stands in the way.
 */
export const tryFar = (
  part: PlannedPart,
  plan: ChangedPlan,
  changes: readonly NoteChange[],
  bearingOf: (changes: readonly NoteChange[]) => Bearing,
): FarTrial => {
  const { prepared, problem } = part;
  const now = problemWith(part, changes);
  const before =
    bearingOf(plan.changes).kind === 'far'
      ? problemWith(part, plan.changes).needs
      : changeNeeds(problem.needs, plan.changes);
  const lost = notesLost(now, prepared.options.profile);
  const different = differenceOf(before, now.needs);
  if (different === null) return { plan: { ...plan, changes }, local: null, lost, planned: 0 };
  const span = spanAround(problem.context.graph, different.first, different.last);
  if (span === null) {
    const solved = solveFeet(now.needs, now.context, part.solution);
    const whole = prepared.options.crossFeet ? crossFeet(solved, now.context) : solved;
    return { plan: { ...asTold(whole), changes }, local: null, lost, planned: prepared.moments.all.length };
  }
  const place = { span, passage: cutPassage(now, span, positionsAtEnds(plan, span)) };
  const local = planPlace(place, [], different.feet, prepared.options.crossFeet);
  return {
    plan: putInto(plan, local, changes, prepared.moments),
    local,
    lost,
    planned: span.until - span.from,
  };
};

const problemWith = ({ prepared, problem }: PlannedPart, changes: readonly NoteChange[]): PedalProblem => {
  const { score, options } = prepared;
  const respelled = changes.flatMap((each) =>
    each.kind === 'respell' ? [[each.note, each.to] as const] : [],
  );
  const omitted = changes.flatMap((each) => (each.kind === 'omit' ? [each.note] : []));
  const wanted = {
    ...options,
    respelled: new Map([...options.respelled, ...respelled]),
    omitted: new Set([...options.omitted, ...omitted]),
  };
  return buildPedalProblem(prepareScore(score, wanted, prepared), stringsOf(problem));
};

/**
 * From the first moment to the last at which two lists of needs differ, and the feet that they differ for. Both lists
 * have what they share in one order.
 */
const differenceOf = (
  a: NeedsByLetter,
  b: NeedsByLetter,
): (Stretch & { readonly feet: readonly Foot[] }) | null => {
  const moments: number[] = [];
  const letters = new Set<Letter>();
  for (const letter of LETTERS) {
    const different = momentsApart(a.get(letter)!, b.get(letter)!);
    if (different.length > 0) letters.add(letter);
    moments.push(...different);
  }
  if (moments.length === 0) return null;
  const feet = SIDES.filter((foot) => FEET[foot].some((letter) => letters.has(letter)));
  return { first: Math.min(...moments), last: Math.max(...moments), feet };
};

/** The first and the last moments of what two lists do not share at their beginnings and ends. */
const momentsApart = (a: readonly PlacedNeed[], b: readonly PlacedNeed[]): readonly number[] => {
  const shorter = Math.min(a.length, b.length);
  let before = 0;
  while (before < shorter && areAlike(a[before]!, b[before]!)) before += 1;
  let after = 0;
  while (after < shorter - before && areAlike(a.at(-1 - after)!, b.at(-1 - after)!)) after += 1;
  return [a, b].flatMap((list) => {
    const apart = list.slice(before, list.length - after);
    return apart.length === 0 ? [] : [apart[0]!.moment, apart.at(-1)!.moment];
  });
};

const areAlike = ({ need: a, moment }: PlacedNeed, { need: b, moment: other }: PlacedNeed): boolean =>
  moment === other &&
  (a === b ||
    (a.position === b.position && a.octave === b.octave && a.note.id === b.note.id && a.kind === b.kind));

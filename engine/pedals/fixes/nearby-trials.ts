import type { Position } from '../../harp/setting.ts';
import { KeptByText, perObject } from '../../memoize.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import type { NeedsByLetter } from '../../sounding/placed-needs.ts';
import type { PedalContext } from '../course/foot.ts';
import { needsByNote } from './bearing.ts';
import { type ChangedPlan, type LocalPlan, positionsAtEnds, putInto } from './changed-plan.ts';
import {
  feetOf,
  lettersOf,
  openPlace,
  type PlannedPart,
  pinsAt,
  planPlace,
  type Stretch,
} from './fix-trials.ts';
import { type Span, spanAround } from './passage.ts';

/**
 * A plan with other notes changed than it has, worked out anew around the difference alone; null where only the whole
 * part shows that.
 *
 * @param changes all of them; `different` are those that the plan does not have, or has and these do not
 */
export const tryNearby = (
  part: PlannedPart,
  plan: ChangedPlan,
  changes: readonly NoteChange[],
  different: readonly NoteChange[],
  { first, last }: Stretch,
): { readonly local: LocalPlan; readonly plan: ChangedPlan } | null => {
  const { prepared, problem } = part;
  const span = spanAround(problem.context.graph, first, last);
  if (span === null) return null;
  const ends = positionsAtEnds(plan, span);
  const near = changesNear(part, span, changes);
  const local = localPlansOf(problem).get(keyOfTrial(part, span, ends, near, different), () =>
    planPlace(openPlace(part, ends, span, near), near, feetOf(different), prepared.options.crossFeet),
  );
  return { local, plan: putInto(plan, local, changes, prepared.moments) };
};

/** The changes of a passage; where pins are set there all of them, since a pin gives way to notes far off as well. */
const changesNear = (
  part: PlannedPart,
  span: Span,
  changes: readonly NoteChange[],
): readonly NoteChange[] => {
  if (pinsAt(part, span, lettersOf(changes)).length > 0) return changes;
  const needsOf = needsByNote(part.problem.needs);
  return changes.filter(({ note }) =>
    (needsOf.get(note) ?? []).some(({ moment }) => moment >= span.from && moment < span.until),
  );
};

/** What the feet do in passages with changes, by prices and then by all else that they go by: of one list of needs, as long as that is kept. */
const plansByPricesOf = perObject(
  (_needs: NeedsByLetter) => new KeptByText<KeptByText<LocalPlan>>(MOST_PRICES_KEPT),
);

const localPlansOf = ({ needs, context }: PlannedPart['problem']): KeptByText<LocalPlan> =>
  plansByPricesOf(needs).get(pricesAsText(context.weights), () => new KeptByText(MOST_TRIALS_KEPT));

const MOST_PRICES_KEPT = 8;

/** More than the fixes of a long part with much trouble. */
const MOST_TRIALS_KEPT = 4_000;

/** A text for all that a trial goes by beside the needs of the part and the prices: where pedals stand and may move, and pins. */
const keyOfTrial = (
  part: PlannedPart,
  span: Span,
  ends: (letter: Letter) => ReadonlyMap<number, Position>,
  changes: readonly NoteChange[],
  different: readonly NoteChange[],
): string => {
  const {
    prepared: { options },
    problem: { context },
  } = part;
  const moments = Array.from({ length: span.until - span.from }, (_, i) => span.from + i);
  return JSON.stringify([
    span,
    changes,
    feetOf(different),
    options.crossFeet,
    context.together,
    // A pin gives way to notes, those that are changed included.
    pinsAt(part, span, lettersOf(changes)),
    moments.filter((moment) => context.forbidden.has(moment)),
    LETTERS.map((letter) => {
      const pinned = context.pinned(letter);
      const inside = pinned.size === 0 ? [] : moments.map((moment) => pinned.get(moment) ?? null);
      return [context.idle(letter), [...ends(letter)], inside];
    }),
  ]);
};

const pricesAsText = perObject((weights: PedalContext['weights']) => JSON.stringify(weights));

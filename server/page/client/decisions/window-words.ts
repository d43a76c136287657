import { STRINGS } from '../../strings/strings.ts';
import { beginningOf, type MoveBounds, pauseBounding } from '../planner/move-bounds.ts';
import type { PlannedPart } from '../planner/planned-part.ts';

const words = STRINGS.detail;

type Named = Pick<PlannedPart, 'notes' | 'bars'>;

/** The note that lets a move come no earlier, or no later, in words; null where none does. */
const describeEnd = (
  part: Named,
  end: MoveBounds['after'],
  tell: (note: string, bar: string) => string,
): string | null => {
  const note = end === null || end.note === null ? undefined : part.notes.get(end.note);
  return note === undefined ? null : tell(note.name, part.bars[note.bar]!.name);
};

/** What lets a move come no earlier, in words: the pause before its movement or a note; null for nothing. */
export const describeBeginning = (part: Named, bounds: MoveBounds): string | null => {
  const pause = pauseBounding(part, bounds);
  return pause === null ? describeEnd(part, bounds.after, words.after) : words.fromPause(pause.opens);
};

/** What lets a move come no later, in words; null for nothing. */
export const describeEnding = (part: Named, { before }: MoveBounds): string | null =>
  describeEnd(part, before, words.before);

/** Why a move that goes no earlier does not, in words. */
export const whyNotEarlier = (part: Named, bounds: MoveBounds): string => {
  const begins = beginningOf(part, bounds);
  const isOwn = bounds.own.some((quarters) => quarters < bounds.now && quarters >= begins);
  return words.noEarlier(isOwn ? words.ownBefore : (describeBeginning(part, bounds) ?? words.anyTimeBefore));
};

/** Why a move that goes no later does not, in words. */
export const whyNotLater = (part: Named, bounds: MoveBounds): string => {
  const ends = bounds.before?.quarters ?? Number.POSITIVE_INFINITY;
  const isOwn = bounds.own.some((quarters) => quarters > bounds.now && quarters <= ends);
  return words.noLater(isOwn ? words.ownAfter : (describeEnding(part, bounds) ?? words.toTheEnd));
};

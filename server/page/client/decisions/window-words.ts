import type { MoveWindow } from '../../../../engine/index.ts';
import type { PlannedPart } from '../planner/planned-part.ts';

/** The note that lets a move come no earlier, or no later, in words. */
export const describeEnd = (
  part: Pick<PlannedPart, 'notes' | 'bars'>,
  end: MoveWindow['after'],
  tell: (note: string, bar: string) => string,
  otherwise: string,
): string => {
  const note = end === null ? undefined : part.notes.get(end.note);
  return note === undefined ? otherwise : tell(note.name, part.bars[note.bar]!.name);
};

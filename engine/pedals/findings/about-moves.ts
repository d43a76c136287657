import type { PlaceAt } from '../../findings/describe-finding.ts';
import type { PedalAt } from '../../findings/note-names.ts';
import type { Note } from '../../score/model/note.ts';
import type { SolvedMove } from '../course/foot.ts';
import type { PlannedPart } from '../fixes/fix-trials.ts';

/** What all findings about a move share. */
export const aboutMove = (
  { prepared }: PlannedPart,
  move: SolvedMove,
): { readonly notes: readonly Note[]; readonly place: PlaceAt } => {
  const { bar, at } = prepared.moments.all[move.moment]!;
  return { notes: move.before === null ? [] : [move.before.note], place: { bar, at } };
};

export const changeOf = ({ letter, to }: SolvedMove): PedalAt => ({ letter, position: to });

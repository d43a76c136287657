import { compare, type Plan, type Rational, type Score } from '../../engine/index.ts';

/** Whether the player has a note from a time on that pedals serve: of strings without discs no setting tells anything. */
export const needsPedalsFrom = (
  { notes }: Pick<Score, 'notes'>,
  withoutDiscs: Plan['tunings'],
  from: Rational,
): boolean => {
  const last = notes.findLast(
    ({ role, pitch }) =>
      role !== 'cue' &&
      !withoutDiscs.some(({ string }) => string.letter === pitch.letter && string.octave === pitch.octave),
  );
  return last !== undefined && compare(last.onset, from) >= 0;
};

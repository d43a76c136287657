import { compare, type Plan, type Rational, type Score } from '../../engine/index.ts';

/** Whether the player has a note from a time on that pedals serve: of strings without discs no setting tells anything. */
export const needsPedalsFrom = (
  { notes }: Pick<Score, 'notes'>,
  withoutDiscs: Plan['tunings'],
  from: Rational,
): boolean =>
  notes.some(
    ({ role, onset, pitch }) =>
      role !== 'cue' &&
      compare(onset, from) >= 0 &&
      !withoutDiscs.some(({ string }) => string.letter === pitch.letter && string.octave === pitch.octave),
  );

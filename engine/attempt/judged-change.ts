import { compare, type Rational } from '../music/rational.ts';
import type { FixPlace } from '../proof/model.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Score } from '../score/model/score.ts';
import type { JudgedChange, Stated, UnreadMarking } from './model.ts';

/** What is told of a change of which there is nothing to tell. */
export const UNJUDGED = {
  marking: null,
  sounds: [],
  correction: null,
  tooQuick: false,
  better: null,
  needless: null,
} as const;

export const missing = <Of extends Stated>(
  kind: JudgedChange['kind'],
  place: FixPlace,
  stated: readonly Of[],
): JudgedChange<Of> => ({ kind, ...place, stated, verdict: 'missing', ...UNJUDGED });

export const placeAt = (score: Score, bar: number, at: Rational): FixPlace => ({
  at,
  bar,
  beat: beatAt(score.bars[bar]!, at),
});

export const inOrder = <Each extends FixPlace>(places: readonly Each[]): readonly Each[] =>
  places.toSorted((a, b) => compare(a.at, b.at));

/** Words near the part that may be meant for markings, with their places. */
export const listUnread = (
  score: Score,
  words: readonly { readonly text: string; readonly bar: number; readonly at: Rational }[],
): readonly UnreadMarking[] => words.map(({ text, bar, at }) => ({ ...placeAt(score, bar, at), text }));

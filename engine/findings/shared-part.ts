import type { Score } from '../score/model.ts';
import { describeFinding } from './describe-finding.ts';
import type { Finding } from './model.ts';

/** A part that several players share is planned for one who plays all of it: nobody should take that for their own part. */
export const sharedPartFindings = (score: Score): Finding<'written-for-several'>[] => {
  const { players } = score.harp;
  if (players < 2) return [];
  const divided = score.sharing.filter(({ kind }) => kind === 'divided');
  const first = score.bars[0];
  if (first === undefined) return [];
  return [
    describeFinding(
      score,
      'written-for-several',
      { players, dividedFrom: divided.map(({ bar }) => score.bars[bar]!.number) },
      {
        place: { bar: first.index, at: first.onset },
        suggestions: [
          'Make a part for each player, with the notes of that player alone, and plan each by itself.',
        ],
      },
    ),
  ];
};

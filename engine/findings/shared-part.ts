import type { Score } from '../score/model/score.ts';
import type { PlayerShare } from '../score/model/texts.ts';
import type { BarRun } from './catalogue/strings.ts';
import { describeFinding } from './describe-finding.ts';
import type { Finding } from './model.ts';

/** A part that several players share is planned for one who plays more than their own notes: nobody should take that for their part. */
export const sharedPartFindings = (score: Score): Finding<'written-for-several' | 'shared-notes-kept'>[] => {
  const { players } = score.harp;
  if (players < 2) return [];
  if (score.share !== null) return unclearShare(score, score.share);
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
          'Plan the share of one player (option player), where words or stems tell whose the notes are.',
          'Make a part for each player, with the notes of that player alone, and plan each by itself.',
        ],
      },
    ),
  ];
};

const unclearShare = (score: Score, { player, unclear }: PlayerShare): Finding<'shared-notes-kept'>[] => {
  const first = score.bars[unclear[0] ?? -1];
  if (first === undefined) return [];
  return [
    describeFinding(
      score,
      'shared-notes-kept',
      { player, bars: runsOf(score, unclear) },
      {
        place: { bar: first.index, at: first.onset },
        suggestions: ['Write “I”, “II” or “a 2” over the notes, or give each player a voice of their own.'],
      },
    ),
  ];
};

/** Bars one after the other are told together. */
const runsOf = ({ bars }: Score, indices: readonly number[]): readonly BarRun[] => {
  const starts = indices.filter((bar, i) => i === 0 || indices[i - 1] !== bar - 1);
  const ends = indices.filter((bar, i) => indices[i + 1] !== bar + 1);
  return starts.map((start, i) => ({ from: bars[start]!.number, until: bars[ends[i]!]!.number }));
};

import type { Score } from '../score/model/score.ts';
import type { PlayerShare } from '../score/model/texts.ts';
import { nameBarIn, nameRunsIn } from '../words/bar-names.ts';
import { describeFinding } from './describe-finding.ts';
import { help } from './help/help.ts';
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
      { players, dividedFrom: divided.map(({ bar }) => nameBarIn(score)(bar)) },
      {
        place: { bar: first.index, at: first.onset },
        help: [help('plan-one-player', {}), help('part-for-each-player', {})],
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
      { player, bars: nameRunsIn(score)(unclear) },
      {
        place: { bar: first.index, at: first.onset },
        help: [help('mark-players', {})],
      },
    ),
  ];
};

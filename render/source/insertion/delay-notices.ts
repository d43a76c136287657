import type { Score } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { noticeEdits } from './notices.ts';

/** Insertions that write which notes a user has wait, where these are written. */
export const delayNoticeEdits = (score: Score, idOf: (markingId: string) => string): Edit[] =>
  noticeEdits(
    score,
    'delay',
    score.delayed,
    ({ words }) => ({
      mei: { name: 'dir', attributes: '', content: words },
      musicXml: { types: [`<words>${words}</words>`], sound: null },
    }),
    idOf,
  );

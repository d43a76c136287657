import type { Score } from '../../../engine/index.ts';
import { escapeText } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { noticeEdits } from './notices.ts';

/** Insertions that write over notes on which string of another name they are played. @param names by the ids of notes */
export const stringNameEdits = (
  score: Score,
  names: ReadonlyMap<string, string>,
  idOf: (markingId: string) => string,
): Edit[] =>
  noticeEdits(
    score,
    'string',
    score.notes.flatMap(({ id, onset, bar, grace, staff }) => {
      const name = names.get(id);
      return name === undefined
        ? []
        : [{ at: onset, bar, graceNote: grace === null ? null : id, staff, name: escapeText(name) }];
    }),
    ({ name }) => ({
      mei: { name: 'dir', attributes: '', content: name },
      musicXml: { types: [`<words>${name}</words>`], sound: null },
    }),
    idOf,
  );

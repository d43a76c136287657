import type { Score } from '../../../engine/index.ts';
import { tellPlace } from '../../draw/words-under.ts';
import type { Edit } from '../../edit.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import type { MarkSide } from './mark-content.ts';
import { noticeEdits } from './notices.ts';

/**
 * Insertions that say of markings at their notes which stand where the foot moves, in the words of the pages. They are
 * elements of their own: in one with the marking they would keep programs, proofreading among them, from reading it.
 *
 * @param side of the markings
 */
export const footHereEdits = (
  score: Score,
  markings: readonly PrintedMarking[],
  { place, staff }: MarkSide,
  language: EngravingOptions['language'],
  idOf: (markingId: string) => string,
): Edit[] =>
  noticeEdits(
    score,
    'here',
    markings.flatMap((marking) => {
      // Names in files are English.
      const lines = marking.kind === 'change' ? tellPlace(marking, { naming: 'english', language }) : [];
      const { at, bar, graceNote } = marking;
      const beside = { place, staff: staff === 'highest' ? 1 : score.harp.staves };
      return lines.length === 0 ? [] : [{ at, bar, graceNote, ...beside, words: lines.join(' ') }];
    }),
    ({ words }) => ({
      mei: { name: 'dir', attributes: '', content: words },
      musicXml: { types: [`<words>${words}</words>`], sound: null },
    }),
    idOf,
  );

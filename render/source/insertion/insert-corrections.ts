import { childrenNamed, ok, type Result, type Score, type XmlElement } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import type { PrintedMarking } from '../../markings/printed-markings.ts';
import { type MarkStyle, markSideOf } from './mark-content.ts';
import { meiMarkEdits } from './mei-marks.ts';
import { directionEdits } from './musicxml-directions.ts';

/**
 * Insertions of markings that a repair adds: they are the user's own, so that their ids are named like no earlier
 * annotation and like nothing in the document.
 *
 * @param kind what ids begin with
 * @returns the edits, or `unsupported` where an MEI measure has no room for a marking
 */
export const insertCorrections = (
  score: Score,
  printed: readonly PrintedMarking[],
  kind: 'pedals' | 'levers',
): Result<Edit[]> => {
  const style: MarkStyle = { side: markSideOf('below', score), settings: 'diagrams' };
  const ids = freshIds(score.source.text, kind);
  return score.source.format === 'mei'
    ? meiMarkEdits(score, printed, style, ids)
    : ok(directionEdits(score, printed, style, ids));
};

const freshIds = (text: string, kind: string): ((id: string) => string) => {
  let prefix = `${kind}-`;
  while (text.includes(`"${prefix}`)) prefix = `${prefix}x-`;
  return (id) => `${prefix}${id}`;
};

/** The words and symbols of a direction of MusicXML. */
export const wordsOfDirection = (direction: XmlElement): readonly XmlElement[] =>
  childrenNamed(direction, 'direction-type').flatMap((type) =>
    type.children.filter((each) => each.name === 'words' || each.name === 'symbol'),
  );

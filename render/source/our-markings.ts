import {
  descendantsNamed,
  isOwnElement,
  listParts,
  OWN_PREFIX,
  type Score,
  type SourceMarking,
  type XmlElement,
} from '../../engine/index.ts';

import type { EngravingOptions } from '../engraving-options.ts';

/** In the ids of markings that stand at the notes that need them, so that proofreading knows. */
const AT_NOTE = '-at-note-';

/** Where the markings of ours stand that a file holds; null where it holds none. */
export const ownMarksAt = (score: Score): EngravingOptions['marksAt'] | null => {
  const [first] = ownElements(score);
  if (first === undefined) return null;
  const id = first.attributes[score.source.format === 'mei' ? 'xml:id' : 'id'] ?? '';
  return id.includes(AT_NOTE) ? 'note' : 'foot';
};

/** Names of the elements that we write. */
const WRITTEN = ['direction', 'harpPedal', 'dir', 'tempo'] as const;

/**
 * The markings that an earlier annotation put into the harp's part: those of another harp in the same file are left
 * alone.
 */
export const ownElements = (score: Score): readonly XmlElement[] => {
  const { source, harp } = score;
  if (source.format === 'mei') {
    return descendantsNamed(source.root, ...WRITTEN).filter(
      (each) => isOwnElement(each) && harp.meiStaves.includes(each.attributes.staff ?? ''),
    );
  }
  return listParts(source.root, source.format)
    .filter((part) => harp.partIds.includes(part.id))
    .flatMap((part) => part.bars.flatMap((bar) => bar.content?.children ?? []))
    .filter((each) => each.name === 'direction' && isOwnElement(each));
};

/** The markings of the file that are not ours. */
export const foreignMarkings = (score: Score): readonly SourceMarking[] => {
  const own = new Set(ownElements(score).map((each) => each.span.start));
  return score.markings.filter((marking) => !own.has(marking.span.start));
};

/** The score as it was before we annotated it: what a new plan is to go by. */
export const withoutOwnMarkings = (score: Score): Score => ({ ...score, markings: foreignMarkings(score) });

/**
 * Names our elements: unlike any other id of the document, and the same for the same plan however often it is
 * written. The harp's own part or staff is in the name, so that two harps of one file do not meet.
 */
export const ownIds = (
  score: Score,
  marksAt: EngravingOptions['marksAt'] = 'foot',
): ((markingId: string) => string) => {
  const { root, format } = score.source;
  const attribute = format === 'mei' ? 'xml:id' : 'id';
  const own = new Set(ownElements(score).map((each) => each.span.start));
  const taken = new Set<string>();
  const visit = (element: XmlElement): void => {
    const id = element.attributes[attribute];
    if (id !== undefined && !own.has(element.span.start)) taken.add(id);
    for (const each of element.children) visit(each);
  };
  visit(root);
  const place = (format === 'mei' ? `staff${score.harp.meiStaves[0]}` : (score.harp.partIds[0] ?? ''))
    // Letters, digits and signs that an XML name may hold.
    .replace(/[^A-Za-z0-9_.-]/g, '_');
  return (markingId) => {
    let id = `${OWN_PREFIX}${place}${marksAt === 'note' ? AT_NOTE : '-'}${markingId}`;
    while (taken.has(id)) id += '_';
    taken.add(id);
    return id;
  };
};

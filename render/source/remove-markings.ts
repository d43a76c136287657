import {
  asksToPrepare,
  childrenNamed,
  descendantsNamed,
  firstChild,
  nameBarIn,
  quoteWords,
  type Remark,
  remarkIn,
  type Score,
  type SourceMarking,
  type XmlElement,
} from '../../engine/index.ts';
import type { Edit } from '../edit.ts';
import { cutWithSpace } from './insertion/insertion.ts';
import { foreignMarkings, ownElements } from './our-markings.ts';

/** Edits that take out what an earlier annotation put in: the text is then what it was before, byte for byte. */
export const removeOwnMarkings = (score: Score): Edit[] =>
  ownElements(score).map((each) => cutWithSpace(score.source.text, each.span));

/** What is taken out of the file by `removeOtherMarkings`: each marking with its bar, as the file words it. */
export const removalRemarks = (score: Score): readonly Remark[] =>
  foreignMarkings(score).map(({ bar, text, form }) => {
    const marking = form === 'harp-pedals' ? 'a pedal diagram' : `the pedal marking “${quoteWords(text)}”`;
    return remarkIn(score, {
      code: 'file-markings-replaced',
      bar,
      message: `In bar ${nameBarIn(score)(bar)}, ${marking} of the file was taken out to make way for tringle’s.`,
    });
  });

/** Edits that take out the pedal markings by others, and nothing that stands in one element with them. */
export const removeOtherMarkings = (score: Score): Edit[] => {
  const { text, root, format } = score.source;
  const others = new Map(foreignMarkings(score).map((marking) => [marking.span.start, marking]));
  if (format === 'mei') return [...others.values()].map((marking) => cutWithSpace(text, marking.span));
  return descendantsNamed(root, 'direction').flatMap((direction) => {
    const marking = others.get(direction.span.start);
    return marking === undefined ? [] : removeFromDirection(text, direction, marking);
  });
};

/** Edits that take out one marking, and nothing that stands in one element with it. */
export const removeMarking = (score: Score, element: XmlElement, marking: SourceMarking): Edit[] =>
  score.source.format === 'mei'
    ? [cutWithSpace(score.source.text, element.span)]
    : removeFromDirection(score.source.text, element, marking);

const removeFromDirection = (text: string, direction: XmlElement, marking: SourceMarking): Edit[] => {
  const types = childrenNamed(direction, 'direction-type');
  const tells = types.filter((type) => isOfMarking(type, marking));
  if (tells.length < types.length) return tells.map((type) => cutWithSpace(text, type.span));
  const sound = firstChild(direction, 'sound');
  if (sound === undefined) return [cutWithSpace(text, direction.span)];
  // A sound may stand in the bar by itself, a direction without a type may not.
  return [
    { start: direction.span.start, end: sound.span.start, put: '' },
    { start: sound.span.end, end: direction.span.end, put: '' },
  ];
};

const isOfMarking = (type: XmlElement, marking: SourceMarking): boolean =>
  type.children.some((each) =>
    marking.form === 'harp-pedals'
      ? each.name === 'harp-pedals' || (each.name === 'words' && asksToPrepare(each.text))
      : each.name === 'words' || each.name === 'symbol',
  );

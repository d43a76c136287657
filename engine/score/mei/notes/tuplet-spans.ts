import { multiply, type Rational, rational } from '../../../music/rational.ts';
import { childrenNamed, type XmlElement } from '../../../xml/tree.ts';
import type { ReadLog } from '../log.ts';
import { scaleTime } from '../score-time.ts';
import { readReference, xmlId } from '../values.ts';
import { readTupletRatio } from './durations.ts';

interface Span {
  readonly start: string;
  readonly end: string;
  readonly ratio: Rational;
}

/** The tuplets of a bar that are encoded beside the music (`tupletSpan`) or as an attribute (`tuplet`). */
export interface TupletSpans {
  /** The ratio by which an event is shortened. To be asked once for each event of a layer, in order. */
  readonly ratioAt: (
    event: XmlElement,
    layer: { readonly staff: string; readonly layer: string; readonly bar: number },
    inherited: { readonly ratio: Rational; readonly inTuplet: boolean },
  ) => Rational;
}

/** Gathers the tuplet spans of a measure. One whose ends are not both in the measure is passed over with a remark. */
export const findTupletSpans = (measure: XmlElement, bar: number, log: ReadLog): TupletSpans => {
  const elements = childrenNamed(measure, 'tupletSpan');
  const spans = elements.length === 0 ? [] : readSpans(elements, collectXmlIds(measure), bar, log);
  const open = new Map<string, Span[]>();
  return {
    ratioAt: (event, place, { ratio, inTuplet }) => {
      if (spans.length === 0 && (inTuplet || event.attributes.tuplet === undefined)) return ratio;
      const voice = `${place.staff}.${place.layer}`;
      const ids = event.children.map(xmlId).concat(xmlId(event));
      const running = [...(open.get(voice) ?? []), ...spans.filter((span) => ids.includes(span.start))];
      open.set(
        voice,
        running.filter((span) => !ids.includes(span.end)),
      );
      const spanned = running.reduce((all, span) => scaleTime(all, span.ratio, event, log), ratio);
      if (running.length > 0 || inTuplet || event.attributes.tuplet === undefined) return spanned;
      log.remark(
        'alternative-chosen',
        place.bar,
        'A tuplet does not say its ratio and is read as 3 in the time of 2.',
      );
      return multiply(ratio, rational(2, 3));
    },
  };
};

const readSpans = (
  elements: readonly XmlElement[],
  ids: ReadonlySet<string>,
  bar: number,
  log: ReadLog,
): readonly Span[] =>
  elements.flatMap((each) => {
    const [start, end] = [readReference(each, 'startid'), readReference(each, 'endid')];
    if (start !== undefined && end !== undefined && ids.has(start) && ids.has(end)) {
      return [{ start, end, ratio: readTupletRatio(each, bar, log) }];
    }
    log.skip('a tuplet span whose ends are not named in its bar', bar);
    return [];
  });

const collectXmlIds = (element: XmlElement, ids = new Set<string>()): ReadonlySet<string> => {
  const id = xmlId(element);
  if (id !== undefined) ids.add(id);
  for (const each of element.children) collectXmlIds(each, ids);
  return ids;
};

import {
  childrenNamed,
  descendantsNamed,
  firstChild,
  rational,
  toNumber,
  walkBar,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';

/** Lines of MusicXML that a direction begins and another ends, and that the conversion pairs in the order of the file. */
const LINES = ['octave-shift', 'dashes'] as const;

/**
 * In a bar of several voices the end of a line may stand in the file before its beginning, though it is later in time: the
 * conversion would let the line run on to the next end, bars later. Such an end is moved behind the beginning.
 *
 * @param bars of one part in order, as the elements that hold its notes
 */
export const endOrderEdits = (text: string, bars: readonly XmlElement[]): Edit[] => {
  let divisions = rational(1);
  const open = new Set<string>();
  return bars.flatMap((bar) => {
    const { events, after } = readBar(bar, divisions);
    divisions = after;
    return misplacedEnds(events, open).flatMap(({ end, start }) => moveEnd(text, end, start, events));
  });
};

/** A note, or one line's beginning or end. */
interface Placed {
  readonly element: XmlElement;
  /** Quarter notes from the bar's start. */
  readonly at: number;
  readonly line: { readonly key: string; readonly isEnd: boolean } | null;
}

const readBar = (bar: XmlElement, divisions: Parameters<typeof walkBar>[1]) => {
  const events: Placed[] = [];
  const { divisions: after } = walkBar(bar, divisions, ({ element, at }) => {
    const placed = { element, at: toNumber(at) };
    if (element.name === 'note' && firstChild(element, 'grace') === undefined)
      events.push({ ...placed, line: null });
    const line = element.name === 'direction' ? lineOf(element) : null;
    if (line !== null) events.push({ ...placed, line });
  });
  return { events, after };
};

/** Null for a direction of more than one line, and for one whose offset says where it belongs. */
const lineOf = (direction: XmlElement): Placed['line'] => {
  const lines = descendantsNamed(direction, ...LINES);
  const [line] = lines;
  if (line === undefined || lines.length > 1 || firstChild(direction, 'offset') !== undefined) return null;
  const staff = line.name === 'octave-shift' ? (firstChild(direction, 'staff')?.text.trim() ?? '1') : '';
  return {
    key: `${line.name} ${line.attributes.number ?? '1'} ${staff}`,
    isEnd: line.attributes.type === 'stop',
  };
};

/** @param open the lines that earlier bars have begun, by key; brought up to date */
const misplacedEnds = (
  events: readonly Placed[],
  open: Set<string>,
): { readonly end: Placed; readonly start: Placed }[] => {
  const keys = new Set(events.flatMap(({ line }) => line?.key ?? []));
  return [...keys].flatMap((key) => {
    const own = events.filter(({ line }) => line?.key === key);
    const wasOpen = open.has(key);
    // In time, an end before a beginning of the same moment.
    const last = [...own]
      .sort((a, b) => a.at - b.at || Number(b.line!.isEnd) - Number(a.line!.isEnd))
      .at(-1)!;
    if (last.line!.isEnd) open.delete(key);
    else open.add(key);
    const [start, ...others] = own.filter(({ line }) => !line!.isEnd);
    if (start === undefined || others.length > 0 || own.at(-1) !== start) return [];
    // The first end belongs to the line of the bars before.
    const ends = own.filter(({ line }) => line!.isEnd).sort((a, b) => a.at - b.at);
    const end = ends[wasOpen ? 1 : 0];
    return end === undefined || end.at <= start.at ? [] : [{ end, start }];
  });
};

/** The end alone moves: what else its direction says stays. */
const moveEnd = (text: string, end: Placed, start: Placed, events: readonly Placed[]): Edit[] => {
  const from = events.indexOf(start);
  const host = events
    .slice(from + 1)
    .findLast(({ line, at }) => line === null && at >= start.at && at < end.at);
  const types = childrenNamed(end.element, 'direction-type');
  if (host === undefined || types.length > 1 || types[0]!.children.length > 1) return [];
  const { span } = end.element;
  return [cut(span), insertAt(host.element.span.end, text.slice(span.start, span.end))];
};

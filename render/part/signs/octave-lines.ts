import {
  childrenNamed,
  childText,
  firstChild,
  rational,
  toNumber,
  walkBar,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';

/**
 * Octave lines of MusicXML begin and end where the file draws them: a direction may stand at one place of the bar and
 * name another by its offset, which the conversion does not read. The pitches of the file sound as they are, so the
 * notes change the octave they are printed in with the line.
 *
 * @param bars of one part in order, as the elements that hold its notes
 */
export const octaveLineEdits = (text: string, bars: readonly XmlElement[]): Edit[] => {
  let divisions = rational(1);
  return bars.flatMap((bar) => {
    const { lines, notes, after } = readBar(bar, divisions);
    divisions = after;
    return lines.flatMap((line) => moveLine(text, line, notes));
  });
};

/** Times are quarter notes from the bar's start. */
interface Placed {
  readonly element: XmlElement;
  readonly at: number;
  readonly staff: string;
  /** Counts the steps back: what stands in one run is in order of time. */
  readonly run: number;
}

interface OctaveLine extends Placed {
  readonly isStop: boolean;
  /** Where the file draws it. */
  readonly drawnAt: number;
  readonly offset: XmlElement;
}

const readBar = (bar: XmlElement, divisions: Parameters<typeof walkBar>[1]) => {
  const lines: OctaveLine[] = [];
  const notes: Placed[] = [];
  const backups = childrenNamed(bar, 'backup').map(({ span }) => span.start);
  const { divisions: after } = walkBar(bar, divisions, ({ element, at, divisions: inForce }) => {
    const placed: Placed = {
      element,
      at: toNumber(at),
      staff: childText(element, 'staff') ?? '1',
      run: backups.filter((start) => start < element.span.start).length,
    };
    if (element.name === 'note' && firstChild(element, 'grace') === undefined) notes.push(placed);
    const line = element.name === 'direction' ? lineOf(placed, toNumber(inForce)) : null;
    if (line !== null) lines.push(line);
  });
  return { lines, notes, after };
};

/** Null for a direction without an octave line of its own, and for one that stands where it is drawn. */
const lineOf = (placed: Placed, divisions: number): OctaveLine | null => {
  const types = childrenNamed(placed.element, 'direction-type').flatMap(({ children }) => children);
  const offset = firstChild(placed.element, 'offset');
  const shift = types.length === 1 && types[0]!.name === 'octave-shift' ? types[0]! : undefined;
  if (shift === undefined || offset === undefined) return null;
  const by = Number(offset.text) / divisions;
  if (!Number.isFinite(by) || by === 0) return null;
  return { ...placed, offset, drawnAt: placed.at + by, isStop: shift.attributes.type === 'stop' };
};

/** Offsets are no exact times: far less than any note's length. */
const EPSILON = 1e-6;

const moveLine = (text: string, line: OctaveLine, notes: readonly Placed[]): Edit[] => {
  const candidates = notes.filter(({ staff, run }) => staff === line.staff && run === line.run);
  const host = line.isStop ? lastBefore(candidates, line.drawnAt) : nearest(candidates, line.drawnAt);
  if (host === undefined) return [];
  const { element, offset } = line;
  const written =
    text.slice(element.span.start, offset.span.start) + text.slice(offset.span.end, element.span.end);
  const place = line.isStop ? host.element.span.end : host.element.span.start;
  return [cut(element.span), insertAt(place, written)];
};

const isRest = ({ element }: Placed): boolean => firstChild(element, 'rest') !== undefined;

/** The line ends over the last note that begins before its end. */
const lastBefore = (notes: readonly Placed[], time: number): Placed | undefined =>
  notes.findLast((note) => !isRest(note) && note.at < time - EPSILON);

/** It begins at the note whose beginning is nearest (of a chord at the first in the file), or at the first after a rest. */
const nearest = (notes: readonly Placed[], time: number): Placed | undefined => {
  const distances = notes.map(({ at }) => Math.abs(at - time));
  const least = Math.min(...distances);
  const from = notes.findLast((_, i) => distances[i]! < least + EPSILON)?.at;
  return from === undefined ? undefined : notes.find((note) => !isRest(note) && note.at >= from);
};

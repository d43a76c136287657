import { toNumber } from '../../../music/rational.ts';
import { descendantsNamed, type XmlElement } from '../../../xml/tree.ts';
import type { Tremolo } from '../../model/note.ts';
import type { Ids } from '../ids.ts';
import type { ReadLog } from '../log.ts';
import { readInteger } from '../values.ts';
import { noteValue } from './durations.ts';

/** Strokes of an unmeasured tremolo (common practice, no source). */
const UNMEASURED = 3;

/**
 * The tremolo that a note or chord plays: strokes on its stem (`stem.mod`), or its `bTrem` or `fTrem`.
 *
 * @returns null where it plays none
 */
export const readTremolo = (
  event: XmlElement,
  container: XmlElement | null,
  ids: Ids,
  log: ReadLog,
): Tremolo | null => {
  const strokes = /^([1-6])slash$/.exec(event.attributes['stem.mod']?.trim() ?? '')?.[1];
  if (container === null)
    return strokes === undefined ? null : { kind: 'single', marks: Number(strokes), pair: null };
  const beams = readInteger(container, 'beams', [0, 8], log);
  const marks = strokes === undefined ? (beams ?? marksOfUnit(container, event)) : Number(strokes);
  if (container.name === 'bTrem') return { kind: 'single', marks, pair: null };
  return { kind: 'between', marks, pair: pairOf(event, container, ids) };
};

/** `unitdur` is the length of each stroke: a 32nd on a quarter note has three strokes, on an eighth two and its flag. */
const marksOfUnit = (container: XmlElement, event: XmlElement): number => {
  const unit = noteValue(container.attributes.unitdur?.trim() ?? '');
  if (unit === undefined) return UNMEASURED;
  const note = noteValue(event.attributes.dur?.trim() ?? '');
  const longest = Math.min(1, note === undefined ? 1 : toNumber(note));
  return Math.max(0, Math.round(Math.log2(longest / toNumber(unit))));
};

const pairOf = (event: XmlElement, container: XmlElement, ids: Ids): string | null => {
  const other = container.children.find(
    (each) => each !== event && (each.name === 'note' || each.name === 'chord'),
  );
  const note = other?.name === 'chord' ? descendantsNamed(other, 'note')[0] : other;
  return note === undefined ? null : ids.of(note, 'n');
};

import { multiply, type Rational, rational } from '../../../music/rational.ts';
import { childrenNamed, type XmlElement } from '../../../xml/tree.ts';
import type { ReadLog } from '../log.ts';
import { readInteger } from '../values.ts';

const NOTE_VALUES: ReadonlyMap<string, Rational> = new Map([
  ['breve', rational(8)],
  ['long', rational(16)],
  ...[1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048].map(
    (part) => [`${part}`, rational(4, part)] as const,
  ),
]);

/** Quarter notes of a value of data.DURATION.cmn (MEI 5.1): `1` is a whole note. */
export const noteValue = (dur: string): Rational | undefined => NOTE_VALUES.get(dur);

/** Each dot adds half of what the one before it added. */
export const withDots = (value: Rational, dots: number): Rational =>
  dots === 0 ? value : multiply(value, rational(2 ** (dots + 1) - 1, 2 ** dots));

/** As many as are ever printed, and a guard of exact arithmetic. */
const MAX_DOTS = 4;

const readDots = (element: XmlElement, log: ReadLog): number =>
  readInteger(element, 'dots', [0, MAX_DOTS], log) ??
  Math.min(MAX_DOTS, childrenNamed(element, 'dot').length);

/**
 * The written length of a note, chord, rest or space in quarter notes, tuplets left out.
 *
 * Where `dur` is missing, what the file says of the performance stands in: `dur.ges`, then `dur.ppq` with the ticks
 * a quarter note that the score declares (MEI 5.1, att.duration.ges; `96p` is the spelling of MEI 2013).
 *
 * @returns undefined where the element says nothing of its length
 */
export const readLength = (
  element: XmlElement,
  ticksPerQuarter: number | null,
  log: ReadLog,
): Rational | undefined => {
  const dur = element.attributes.dur?.trim() ?? element.attributes['dur.ges']?.trim();
  const ticks = dur?.endsWith('p') ? dur.slice(0, -1) : element.attributes['dur.ppq']?.trim();
  if (dur !== undefined && !dur.endsWith('p')) {
    const value = noteValue(dur);
    if (value === undefined) log.badValue('duration', dur, element);
    return value && withDots(value, readDots(element, log));
  }
  if (ticks === undefined || ticksPerQuarter === null) return undefined;
  if (/^\d{1,7}$/.test(ticks)) return rational(Number(ticks), ticksPerQuarter);
  log.badValue('duration in ticks', ticks, element);
  return undefined;
};

/** Numbers of a tuplet beyond this are taken for an error. */
const MAX_TUPLET = 1000;

/**
 * The ratio by which a tuplet shortens: `numbase` in the time of `num` (MEI 5.1, att.duration.ratio). A missing
 * `numbase` is the power of two below `num`, or three for a duplet or quadruplet (common practice, no source); where
 * `num` is missing too, the lengths are left as written.
 */
export const readTupletRatio = (element: XmlElement, bar: number, log: ReadLog): Rational => {
  const num = readInteger(element, 'num', [1, MAX_TUPLET], log);
  const base = readInteger(element, 'numbase', [1, MAX_TUPLET], log);
  if (num !== undefined && base !== undefined) return rational(base, num);
  if (num === undefined) {
    log.remark(
      'alternative-chosen',
      bar,
      'A tuplet does not say its ratio, so its notes keep their written lengths.',
    );
    return rational(1);
  }
  const usual = num === 2 || num === 4 ? 3 : 2 ** Math.floor(Math.log2(Math.max(1, num - 1)));
  log.remark(
    'alternative-chosen',
    bar,
    `A tuplet gives only half of its ratio and is read as ${num} in the time of ${usual}.`,
  );
  return rational(usual, num);
};

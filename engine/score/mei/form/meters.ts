import { add } from '../../../music/rational.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { barLength } from '../../bars/beats.ts';
import type { Meter } from '../../model/bar.ts';
import { contentOf } from '../editorial.ts';
import type { ReadLog } from '../log.ts';
import { readInteger } from '../values.ts';

export interface MeterReading {
  readonly meter: Meter;
  readonly unmeasured: boolean;
}

/**
 * The meter that a definition states by attributes, by `meterSig` or by `meterSigGrp` (mixed meters are added up, of
 * others the first is read).
 *
 * @returns undefined where the element leaves the meter as it is
 */
export const readMeter = (element: XmlElement, now: Meter, log: ReadLog): MeterReading | undefined => {
  const own = meterOf(element, 'meter.', now, log);
  if (own !== undefined) return own;
  for (const each of contentOf(element, log)) {
    if (each.name === 'meterSig' || each.name === 'meterSigGrp') return readMeterSig(each, now, log);
  }
  return undefined;
};

/** A `meterSig` or `meterSigGrp` element. */
export const readMeterSig = (element: XmlElement, now: Meter, log: ReadLog): MeterReading | undefined => {
  if (element.name === 'meterSig') return meterOf(element, '', now, log);
  const meters = contentOf(element, log).flatMap((each) => readMeterSig(each, now, log) ?? []);
  const [first] = meters;
  if (first === undefined || element.attributes.func === 'mixed')
    return first && { ...first, meter: sum(meters) };
  if (meters.length > 1) log.skip('all but the first of alternating meter signatures', null);
  return first;
};

const sum = (meters: readonly MeterReading[]): Meter => {
  const beatUnit = Math.max(...meters.map((each) => each.meter.beatUnit));
  const total = meters.map((each) => barLength(each.meter)).reduce(add);
  return { beats: (total.num * beatUnit) / (4 * total.den), beatUnit };
};

const SYMBOLS: ReadonlyMap<string, Meter> = new Map([
  ['common', { beats: 4, beatUnit: 4 }],
  ['cut', { beats: 2, beatUnit: 2 }],
]);

const meterOf = (element: XmlElement, prefix: string, now: Meter, log: ReadLog): MeterReading | undefined => {
  const sym = element.attributes[`${prefix}sym`]?.trim();
  const beats = readCount(element, `${prefix}count`, log);
  const unit = readUnit(element, `${prefix}unit`, log);
  if (sym === 'open') return { meter: now, unmeasured: true };
  const symbol = sym === undefined ? undefined : SYMBOLS.get(sym);
  if (beats === undefined && unit === undefined) return symbol && { meter: symbol, unmeasured: false };
  const meter = { beats: beats ?? now.beats, beatUnit: unit ?? symbol?.beatUnit ?? now.beatUnit };
  return { meter, unmeasured: false };
};

const readUnit = (element: XmlElement, name: string, log: ReadLog): number | undefined => {
  const unit = readInteger(element, name, [1, 128], log);
  if (unit === undefined || Number.isInteger(Math.log2(unit))) return unit;
  log.badValue('meter unit', `${unit}`, element);
  return undefined;
};

/** A number, or a sum or product of whole numbers such as `2+3` (MEI 5.1, att.meterSig.log). */
const readCount = (element: XmlElement, name: string, log: ReadLog): number | undefined => {
  const text = element.attributes[name]?.trim();
  if (text === undefined) return undefined;
  const terms = text
    .split('+')
    .map((term) => term.split('*').map((factor) => (/^\s*\d{1,3}\s*$/.test(factor) ? Number(factor) : 0)));
  const total = terms.map((factors) => factors.reduce((a, b) => a * b, 1)).reduce((a, b) => a + b, 0);
  if (total >= 1 && total <= 1000 && terms.flat().every((factor) => factor > 0)) return total;
  log.badValue('meter', text, element);
  return undefined;
};

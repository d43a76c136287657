import type { XmlElement } from '../../../xml/tree.ts';
import type { ReadLog } from '../log.ts';

/** A comma of Turkish art music: nine make a whole tone (common practice, no source). */
const COMMA = 2 / 9;

/**
 * Semitones of every value of `accid` and `accid.ges` (MEI 5.1, data.ACCIDENTAL.WRITTEN and .GESTURAL; those of
 * 3.0 and 4.0 are among them).
 */
const ALTER: Readonly<Record<string, number>> = {
  s: 1,
  f: -1,
  n: 0,
  ss: 2,
  x: 2,
  ff: -2,
  xs: 3,
  sx: 3,
  ts: 3,
  tf: -3,
  nf: -1,
  ns: 1,
  su: 1.5,
  sd: 0.5,
  fu: -0.5,
  fd: -1.5,
  nu: 0.5,
  nd: -0.5,
  xu: 2.5,
  xd: 1.5,
  ffu: -1.5,
  ffd: -2.5,
  '1qf': -0.5,
  '3qf': -1.5,
  '1qs': 0.5,
  '3qs': 1.5,
  bms: 8 * COMMA,
  kms: 5 * COMMA,
  bs: 4 * COMMA,
  ks: COMMA,
  kf: -COMMA,
  bf: -4 * COMMA,
  kmf: -5 * COMMA,
  bmf: -8 * COMMA,
  koron: -0.5,
  sori: 0.5,
};

/** The semitones that an accidental attribute asks for; undefined where it is missing or refused. */
export const readAlter = (element: XmlElement, name: string, log: ReadLog): number | undefined => {
  const text = element.attributes[name]?.trim();
  if (text === undefined || text === '' || text === 'none') return undefined;
  const alter = Object.hasOwn(ALTER, text) ? ALTER[text] : undefined;
  if (alter === undefined) log.badValue('accidental', text, element);
  return alter;
};

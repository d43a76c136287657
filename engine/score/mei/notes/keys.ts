import { type KeyMode, readKeyMode } from '../../../music/key-names.ts';
import { isLetter, type Letter } from '../../../music/pitch.ts';
import type { XmlElement } from '../../../xml/tree.ts';
import { type BarAccidentals, startBar } from '../../bars/bar-accidentals.ts';
import { contentOf } from '../editorial.ts';
import type { ReadLog } from '../log.ts';
import { readAlter } from './accidentals.ts';

/** `fifths` sharps or, negative, flats; `mixed` holds the letters of a signature that is no row of fifths. */
export interface KeySignature {
  readonly fifths: number;
  readonly mixed: ReadonlyMap<Letter, number> | null;
  /** As the file states it. */
  readonly mode: KeyMode;
}

/**
 * The key signature that a definition states: the attribute `keysig` (`key.sig` before MEI 5), a `keySig` child, or
 * `keyAccid` children in it.
 *
 * @returns undefined where the element leaves the key as it is
 */
export const readKey = (element: XmlElement, log: ReadLog): KeySignature | undefined => {
  const attribute = element.attributes.keysig ?? element.attributes['key.sig'];
  if (attribute !== undefined && attribute !== 'mixed')
    return readFifths(attribute, element, 'key.mode', log);
  const signature = contentOf(element, log).find((each) => each.name === 'keySig');
  return signature && readKeySig(signature, log);
};

/** A `keySig` element: its `sig` (MEI 4 and 5), or the accidentals it is made of. */
export const readKeySig = (signature: XmlElement, log: ReadLog): KeySignature => {
  const sig = signature.attributes.sig;
  if (sig !== undefined && sig !== 'mixed') return readFifths(sig, signature, 'mode', log);
  const mixed = new Map<Letter, number>();
  for (const each of contentOf(signature, log)) {
    const letter = each.attributes.pname?.trim().toUpperCase() ?? '';
    const alter = readAlter(each, 'accid', log);
    if (each.name === 'keyAccid' && isLetter(letter) && alter !== undefined) mixed.set(letter, alter);
  }
  return { fifths: 0, mixed: mixed.size === 0 ? null : mixed, mode: null };
};

/** data.KEYFIFTHS (MEI 5.1): `0`, or a count and `s` or `f`; null where the text is neither. */
export const parseFifths = (text: string): number | null => {
  const match = /^(?:0|([1-9]|1[0-2])([sf]))$/.exec(text.trim());
  if (match === null) return null;
  const count = Number(match[1] ?? 0);
  return match[2] === 'f' ? -count : count;
};

const readFifths = (
  text: string,
  element: XmlElement,
  mode: 'mode' | 'key.mode',
  log: ReadLog,
): KeySignature => {
  const fifths = parseFifths(text);
  if (fifths === null) log.badValue('key signature', text, element);
  return { fifths: fifths ?? 0, mixed: null, mode: readKeyMode(element.attributes[mode]) };
};

const OCTAVES = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10] as const;

/** Accidentals at the start of a bar in this key. */
export const startBarInKey = (key: KeySignature): BarAccidentals => {
  const accidentals = startBar(key.fifths);
  for (const [letter, alter] of key.mixed ?? []) {
    for (const octave of OCTAVES) accidentals.write(letter, octave, alter);
  }
  return accidentals;
};

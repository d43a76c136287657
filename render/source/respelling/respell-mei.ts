import {
  descendantsNamed,
  isLetter,
  letterAtStep,
  type Note,
  type Pitch,
  stepOf,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, setAttribute } from '../../edit.ts';
import { type PitchShift, shiftPitch } from './pitch-shift.ts';

/** Semitones and the values of `accid` and `accid.ges` that a harp note may have (MEI 5.1, data.ACCIDENTAL.WRITTEN). */
const SEMITONES: Readonly<Record<string, number>> = { ff: -2, f: -1, n: 0, s: 1, x: 2, ss: 2 };
const SIGNS: Readonly<Record<string, string>> = { '-2': 'ff', '-1': 'f', '0': 'n', '1': 's', '2': 'x' };

/**
 * Edits of one MEI note. The accidental is always printed at the note itself, for its new letter may have another in
 * the bar; a note that goes on from a tie has one only where it had one, and tells its sound by `accid.ges`.
 *
 * @returns null where the note has no accidental of its own and is transposed by steps, so that the key would have to
 * be known to tell its written pitch
 */
export const respellMeiNote = (
  text: string,
  element: XmlElement,
  shift: PitchShift,
  note: Note,
): Edit[] | null => {
  const letter = (element.attributes.pname ?? '').toUpperCase();
  const octave = Number(element.attributes.oct ?? note.pitch.octave);
  const accids = [element, ...descendantsNamed(element, 'accid')];
  const alter = statedAlter(accids) ?? (letter === note.pitch.letter ? note.pitch.alter : null);
  if (!isLetter(letter) || alter === null) return null;
  const pitch = shiftPitch({ letter, alter, octave }, shift);
  const set = (name: string, value: string): Edit => setAttribute(text, element.span.start, name, value);
  return [
    set('pname', pitch.letter.toLowerCase()),
    set('oct', `${pitch.octave}`),
    ...performedEdits(element, pitch, shift, set),
    ...accidentalEdits(text, accids, SIGNS[`${pitch.alter}`]!, note.tiedFrom !== null),
  ];
};

const statedAlter = (accids: readonly XmlElement[]): number | null => {
  for (const name of ['accid.ges', 'accid']) {
    for (const { attributes } of accids) {
      const stated = SEMITONES[attributes[name] ?? ''];
      if (stated !== undefined) return stated;
    }
  }
  return null;
};

/** Performed letter and octave move as the written ones do. */
const performedEdits = (
  { attributes }: XmlElement,
  pitch: Pitch,
  { steps }: PitchShift,
  set: (name: string, value: string) => Edit,
): Edit[] => {
  const letter = attributes['pname.ges']?.toUpperCase();
  const octave = attributes['oct.ges'];
  if (octave === undefined && letter === undefined) return [];
  const before = letterAtStep(stepOf(pitch) - steps);
  const performed = letterAtStep(
    stepOf({
      letter: letter !== undefined && isLetter(letter) ? letter : before.letter,
      octave: Number(octave ?? before.octave),
    }) + steps,
  );
  return [
    ...(letter === undefined ? [] : [set('pname.ges', performed.letter.toLowerCase())]),
    ...(octave === undefined ? [] : [set('oct.ges', `${performed.octave}`)]),
  ];
};

/** The sign replaces the old one where that stands, be it an attribute or an `accid` element. */
const accidentalEdits = (
  text: string,
  accids: readonly XmlElement[],
  sign: string,
  tied: boolean,
): Edit[] => {
  const note = accids[0]!;
  const has = (name: string) => (each: XmlElement) => each.attributes[name] !== undefined;
  const printed = accids.find(has('accid'));
  const performed = accids.find(has('accid.ges'));
  if (printed === undefined && tied) {
    return [setAttribute(text, (performed ?? note).span.start, 'accid.ges', sign)];
  }
  // Written and performed accidental of a note must not say the same twice (MEI 5.1, Schematron rule of accid.ges).
  const repeated = performed === undefined ? [] : cutAttribute(text, performed, 'accid.ges');
  return [setAttribute(text, (printed ?? note).span.start, 'accid', sign), ...repeated];
};

const cutAttribute = (text: string, element: XmlElement, name: string): Edit[] => {
  const { start } = element.span;
  const found = new RegExp(`\\s${name.replace('.', '\\.')}\\s*=\\s*(?:"[^"]*"|'[^']*')`).exec(
    text.slice(start, element.inner.start),
  );
  return found === null
    ? []
    : [cut({ start: start + found.index, end: start + found.index + found[0].length })];
};

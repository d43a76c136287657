import {
  childText,
  firstChild,
  isLetter,
  type Note,
  type Pitch,
  type XmlElement,
} from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { cutWithSpace, insertBefore, prefixOf } from '../insertion/insertion.ts';
import { insertNoteChild } from '../insertion/note-children.ts';
import { type PitchShift, shiftPitch } from './pitch-shift.ts';

/** Names of accidentals as MusicXML has them (MusicXML 4.0, accidental-value). */
const ACCIDENTALS: Readonly<Record<string, string>> = {
  '-2': 'flat-flat',
  '-1': 'flat',
  '0': 'natural',
  '1': 'sharp',
  '2': 'double-sharp',
};

/**
 * Edits of one MusicXML note. The accidental is always printed at the note itself, for its new letter may have another
 * in the bar; a note that goes on from a tie has one only where it had one.
 */
export const respellMusicXmlNote = (
  text: string,
  element: XmlElement,
  shift: PitchShift,
  { tiedFrom }: Note,
): Edit[] | null => {
  const pitchElement = firstChild(element, 'pitch');
  const written = pitchElement === undefined ? null : readPitch(pitchElement);
  if (pitchElement === undefined || written === null) return null;
  const pitch = shiftPitch(written, shift);
  return [
    ...pitchEdits(text, pitchElement, pitch),
    ...accidentalEdits(text, element, ACCIDENTALS[`${pitch.alter}`]!, tiedFrom !== null),
  ];
};

const readPitch = (element: XmlElement): Pitch | null => {
  const letter = childText(element, 'step') ?? '';
  if (!isLetter(letter)) return null;
  return {
    letter,
    alter: Number(childText(element, 'alter') ?? 0),
    octave: Number(childText(element, 'octave')),
  };
};

const pitchEdits = (text: string, element: XmlElement, pitch: Pitch): Edit[] => {
  const [step, alter, octave] = (['step', 'alter', 'octave'] as const).map((name) =>
    firstChild(element, name),
  );
  const prefix = prefixOf(text, element);
  const edits = [...contentEdit(step, pitch.letter), ...contentEdit(octave, `${pitch.octave}`)];
  if (alter !== undefined) {
    return [
      ...edits,
      pitch.alter === 0 ? cutWithSpace(text, alter.span) : replaceContent(alter, `${pitch.alter}`),
    ];
  }
  if (pitch.alter === 0 || octave === undefined) return edits;
  const put = `<${prefix}alter>${pitch.alter}</${prefix}alter>`;
  return [...edits, insertBefore(text, octave.span.start, put)];
};

const contentEdit = (element: XmlElement | undefined, content: string): Edit[] =>
  element === undefined || element.text.trim() === content ? [] : [replaceContent(element, content)];

const replaceContent = ({ inner }: XmlElement, put: string): Edit => ({ ...inner, put });

const accidentalEdits = (text: string, note: XmlElement, name: string, tied: boolean): Edit[] => {
  const present = firstChild(note, 'accidental');
  if (present !== undefined) return [replaceContent(present, name)];
  if (tied) return [];
  const prefix = prefixOf(text, note);
  const put = `<${prefix}accidental>${name}</${prefix}accidental>`;
  return [insertNoteChild(text, note, 'accidental', put)];
};

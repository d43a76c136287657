import { type KeyMode, readKeyMode } from '../../music/key-names.ts';
import { letterAtStep, midiOf, type Pitch, stepOf } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import { childrenNamed, childText, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { Meter } from '../model/bar.ts';
import type { RemarkList } from './remark-list.ts';
import { BadValue, readInteger } from './values.ts';

/** How written pitches sound: staff steps and semitones to add. */
export interface Transposition {
  readonly steps: number;
  readonly semitones: number;
}

export const AS_WRITTEN: Transposition = { steps: 0, semitones: 0 };

/** The sounding pitch of a written one. */
export const transpose = (pitch: Pitch, by: Transposition): Pitch => {
  if (by.steps === 0 && by.semitones === 0) return pitch;
  const natural = { ...letterAtStep(stepOf(pitch) + by.steps), alter: 0 };
  return { ...natural, alter: midiOf(pitch) + by.semitones - midiOf(natural) };
};

/** A key signature from a time in the bar on; `staff` is null for all staves. */
export interface KeyChange {
  readonly at: Rational;
  readonly staff: number | null;
  readonly fifths: number;
  /** As the file states it. */
  readonly mode: KeyMode;
}

/** A sign that a staff repeats the `length` bars before it, until the bar where it stops. */
export interface RepeatSign {
  readonly staff: number | null;
  readonly start: boolean;
  readonly length: number;
}

/** What one `attributes` element says, apart from divisions. */
export interface Attributes {
  readonly keys: readonly KeyChange[];
  /** `free`: without metre, the bars are as long as their content. */
  readonly meter: { readonly meter: Meter; readonly free: boolean } | null;
  readonly transpositions: readonly { readonly staff: number | null; readonly by: Transposition }[];
  readonly barRepeats: readonly RepeatSign[];
  readonly staves: number | null;
}

export const MAX_STAVES = 16;

export const readAttributes = (
  element: XmlElement,
  at: Rational,
  bar: number,
  remarks: RemarkList,
): Attributes => {
  reportClefs(element, bar, remarks);
  const staves = firstChild(element, 'staves');
  return {
    keys: childrenNamed(element, 'key').flatMap((key) => readKey(key, at, bar, remarks)),
    meter: readMeter(element),
    transpositions: childrenNamed(element, 'transpose').map((each) => ({
      staff: staffNumberOf(each),
      by: readTransposition(each, bar, remarks),
    })),
    barRepeats: childrenNamed(element, 'measure-style').flatMap((style) => readStyle(style, bar, remarks)),
    staves: staves === undefined ? null : readInteger(staves, 'number of staves', 0, MAX_STAVES),
  };
};

const staffNumberOf = (element: XmlElement): number | null => {
  const { number } = element.attributes;
  if (number === undefined) return null;
  const staff = Number(number);
  if (!Number.isInteger(staff) || staff < 1 || staff > MAX_STAVES)
    throw new BadValue(element, 'staff number', number);
  return staff;
};

const reportClefs = (element: XmlElement, bar: number, remarks: RemarkList): void => {
  for (const clef of childrenNamed(element, 'clef')) {
    const sign = firstChild(clef, 'sign')?.text.trim();
    if (sign === 'percussion' || sign === 'TAB')
      remarks.skip(`A ${sign} clef has no pitches for the strings`, bar);
  }
};

const MOST_FIFTHS = 14;

const readKey = (key: XmlElement, at: Rational, bar: number, remarks: RemarkList): readonly KeyChange[] => {
  const fifths = firstChild(key, 'fifths');
  if (fifths !== undefined) {
    const value = readInteger(fifths, 'key signature', -MOST_FIFTHS, MOST_FIFTHS);
    return [{ at, staff: staffNumberOf(key), fifths: value, mode: readKeyMode(childText(key, 'mode')) }];
  }
  remarks.skip(
    'Ornaments are read without a key signature, because this one consists of single accidentals',
    bar,
  );
  return [{ at, staff: staffNumberOf(key), fifths: 0, mode: null }];
};

const MOST_BEATS = 1000;

/** The time signature of the first staff; several fractions of one signature are added up. */
const readMeter = (element: XmlElement): Attributes['meter'] => {
  const time = childrenNamed(element, 'time').find((each) => (staffNumberOf(each) ?? 1) === 1);
  if (time === undefined) return null;
  if (firstChild(time, 'senza-misura') !== undefined) return { meter: { beats: 4, beatUnit: 4 }, free: true };
  const beats = childrenNamed(time, 'beats');
  const units = childrenNamed(time, 'beat-type');
  if (beats.length === 0 || beats.length !== units.length) throw new BadValue(time, 'time signature');
  const fractions = beats.map((each, index) => ({
    beats: readBeats(each),
    unit: readInteger(units[index]!, 'beat type', 1, 1024),
  }));
  const beatUnit = fractions.reduce((most, each) => Math.max(most, each.unit), 1);
  const total = fractions.reduce((sum, each) => sum + (each.beats * beatUnit) / each.unit, 0);
  if (!Number.isInteger(total)) throw new BadValue(time, 'time signature');
  return { meter: { beats: total, beatUnit }, free: false };
};

/** Beats may be a sum, such as `3+2`. */
const readBeats = (element: XmlElement): number => {
  const text = element.text.trim();
  if (!/^\d{1,4}(?:\s*\+\s*\d{1,4})*$/u.test(text)) throw new BadValue(element, 'number of beats');
  const sum = text.split('+').reduce((beats, each) => beats + Number(each), 0);
  if (sum < 1 || sum > MOST_BEATS) throw new BadValue(element, 'number of beats');
  return sum;
};

const MOST_TRANSPOSED = 48;

const readTransposition = (element: XmlElement, bar: number, remarks: RemarkList): Transposition => {
  if (firstChild(element, 'double') !== undefined) {
    remarks.skip('A doubling at the octave is ignored: the notes are read once', bar);
  }
  const number = (name: string): number | undefined => {
    const found = firstChild(element, name);
    return found && readInteger(found, 'transposition', -MOST_TRANSPOSED, MOST_TRANSPOSED);
  };
  const chromatic = number('chromatic') ?? 0;
  const diatonic = number('diatonic') ?? usualSteps(chromatic);
  const octaves = number('octave-change') ?? 0;
  return { steps: diatonic + 7 * octaves, semitones: chromatic + 12 * octaves };
};

/** Staff steps of the usual spelling of an interval: 0 unison, 1 and 2 seconds, 3 and 4 thirds ... */
const STEPS_OF_SEMITONES = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6] as const;

const usualSteps = (semitones: number): number => {
  const size = Math.abs(semitones);
  return Math.sign(semitones) * (7 * Math.floor(size / 12) + STEPS_OF_SEMITONES[size % 12]!);
};

const LONGEST_REPEAT = 16;

const readStyle = (style: XmlElement, bar: number, remarks: RemarkList): readonly RepeatSign[] => {
  const repeat = firstChild(style, 'measure-repeat');
  for (const name of ['slash', 'beat-repeat'] as const) {
    if (firstChild(style, name)?.attributes.type === 'start') {
      remarks.skip(
        name === 'slash'
          ? 'Slash notation leaves the notes to the player: only notes written in the file are read'
          : 'A beat repeat is not expanded: only notes written in the file are read',
        bar,
      );
    }
  }
  if (repeat === undefined) return [];
  const start = repeat.attributes.type !== 'stop';
  const length =
    start && repeat.text.trim() !== '' ? readInteger(repeat, 'number of bars', 1, LONGEST_REPEAT) : 1;
  return [{ staff: staffNumberOf(style), start, length }];
};

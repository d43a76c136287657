import { isLetter, type Pitch } from '../../music/pitch.ts';
import { type Rational, rational, ZERO } from '../../music/rational.ts';
import { child, childText, type XmlElement } from '../../xml/tree.ts';
import type { Note } from '../model.ts';
import { MOST_STAVES, readAttributes } from './attributes.ts';
import { offsetOf } from './directions.ts';
import { readHarpDirection } from './harp-directions.ts';
import { readNoteMarks } from './note-marks.ts';
import type { PartBar } from './parts.ts';
import type { RawBar, RawDamp, RawMarking, RawNote, RawPart, RawRest } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import { StaffSigns } from './staff-signs.ts';
import { BadValue, readInteger, readNumber } from './values.ts';
import { type BarItem, statesDivisions, walkBar } from './walk.ts';

/** Where a part stands in a harp of one or two parts. */
export interface PartPlace {
  /** Staves of the harp above this part. */
  readonly staffOffset: number;
  /** Set before voices, so that two parts do not share them; empty for a harp of one part. */
  readonly voicePrefix: string;
}

/**
 * Reads all bars of one part of the harp.
 *
 * @param bars null where the part lacks a bar
 * @throws BadValue for values that are no numbers or out of range
 */
export const readHarpPart = (
  bars: readonly (PartBar | null)[],
  place: PartPlace,
  remarks: RemarkList,
): RawPart => {
  const reader = new HarpPartReader(place, remarks);
  for (const bar of bars) reader.readBar(bar);
  return reader.finish();
};

/** The signs in force as the reading goes on, and what was read so far. */
class HarpPartReader {
  readonly #place: PartPlace;
  readonly #remarks: RemarkList;
  readonly #signs = new StaffSigns();
  readonly #bars: RawBar[] = [];
  readonly #notes: RawNote[] = [];
  readonly #rests: RawRest[] = [];
  readonly #damps: RawDamp[] = [];
  readonly #markings: RawMarking[] = [];
  #divisions: Rational | null = null;
  #lowestStaff = 1;

  constructor(place: PartPlace, remarks: RemarkList) {
    this.#place = place;
    this.#remarks = remarks;
  }

  readBar(bar: PartBar | null): void {
    this.#signs.startBar();
    const length = bar === null ? ZERO : this.#readContent(bar.content, bar.index, bar.number);
    this.#bars.push({ length, signs: this.#signs.endBar() });
  }

  finish(): RawPart {
    return {
      staves: Math.max(this.#signs.staves, this.#lowestStaff),
      staffOffset: this.#place.staffOffset,
      bars: this.#bars,
      notes: this.#notes,
      rests: this.#rests,
      damps: this.#damps,
      markings: this.#markings,
    };
  }

  #readContent(content: XmlElement, bar: number, number: string): Rational {
    const divisions = this.#divisions ?? rational(1);
    const walked = walkBar(content, divisions, (item) => this.#readItem(item, bar, number));
    if (walked.beforeStart) this.#remarks.skip('A backup to before the bar goes to its start', number);
    const isStated = this.#divisions !== null || content.children.some(statesDivisions);
    if (isStated) this.#divisions = walked.divisions;
    else if (walked.length.num > 0) {
      this.#remarks.skip('No divisions are stated: durations are read as quarter notes', number);
    }
    return walked.length;
  }

  #readItem(item: BarItem, bar: number, number: string): void {
    const { element, at } = item;
    switch (element.name) {
      case 'note':
        this.#readNote(item, bar, number);
        break;
      case 'attributes':
        this.#signs.read(readAttributes(element, at, number, this.#remarks), at);
        break;
      case 'direction':
        this.#readDirection(item, bar, number);
        break;
      case 'harmony':
        this.#remarks.skip('Chord symbols are not read as notes', number);
        break;
      case 'figured-bass':
        this.#remarks.skip('A figured bass is not read as notes', number);
        break;
    }
  }

  #readNote(item: BarItem, bar: number, number: string): void {
    const { element, at, duration, chordDuration } = item;
    if (item.outlastsChord)
      this.#remarks.skip('A note written longer than its chord is read as long as the chord', number);
    const event = {
      bar,
      at,
      duration,
      span: element.span,
      sourceId: element.attributes.id ?? '',
      staff: this.#staffOf(element) + this.#place.staffOffset,
      voice: this.#place.voicePrefix + (childText(element, 'voice') || '1'),
    };
    const pitch = child(element, 'pitch');
    if (pitch !== undefined) {
      const last = this.#notes.at(-1);
      const isSameChord = item.chord && last !== undefined && last.bar === bar;
      // Named one by one: an object that grows from a spread is slow to read, and notes are read often.
      this.#notes.push({
        bar,
        at,
        duration,
        span: event.span,
        sourceId: event.sourceId,
        staff: event.staff,
        voice: event.voice,
        repeats: null,
        chord: isSameChord ? last.chord : `${this.#place.voicePrefix}${this.#notes.length}`,
        chordDuration,
        written: readPitch(pitch),
        transposition: this.#signs.transpositionOf(event.staff - this.#place.staffOffset),
        grace: readGrace(element),
        role: roleOf(element),
        accidental: child(element, 'accidental') !== undefined,
        marks: readNoteMarks(element, number, this.#remarks),
      });
    } else if (child(element, 'rest') !== undefined) {
      this.#rests.push(event);
    } else {
      this.#remarks.skip('Notes without pitch are left out', number);
    }
  }

  #staffOf(element: XmlElement): number {
    const staff = child(element, 'staff');
    const number = staff === undefined ? 1 : readInteger(staff, 'staff number', 1, MOST_STAVES);
    this.#lowestStaff = Math.max(this.#lowestStaff, number);
    return number;
  }

  #readDirection(item: BarItem, bar: number, number: string): void {
    const { element } = item;
    const { marking, damp } = readHarpDirection(element, number, this.#remarks);
    if (marking === null && damp === null) return;
    const at = offsetOf(item);
    if (marking !== null) this.#markings.push({ bar, at, span: element.span, ...marking });
    if (damp !== null) {
      const hasStaff = damp === 'damp' && child(element, 'staff') !== undefined;
      const staff = hasStaff ? this.#staffOf(element) + this.#place.staffOffset : null;
      this.#damps.push({ bar, at, kind: damp, staff });
    }
  }
}

const readPitch = (pitch: XmlElement): Pitch => {
  const step = child(pitch, 'step');
  const octave = child(pitch, 'octave');
  const alter = child(pitch, 'alter');
  const letter = step?.text.trim() ?? '';
  if (!isLetter(letter)) throw new BadValue(step ?? pitch, 'note name', letter);
  if (octave === undefined) throw new BadValue(pitch, 'octave');
  return {
    letter,
    alter: alter === undefined ? 0 : readNumber(alter, 'alteration', -3, 3),
    octave: readInteger(octave, 'octave', 0, 9),
  };
};

const readGrace = (note: XmlElement): RawNote['grace'] => {
  const grace = child(note, 'grace');
  return grace === undefined ? null : { slashed: grace.attributes.slash === 'yes' };
};

const roleOf = (note: XmlElement): Note['role'] => {
  if (child(note, 'cue') !== undefined) return 'cue';
  return note.attributes['print-object'] === 'no' ? 'hidden' : 'played';
};

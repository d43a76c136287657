import { isLetter, type Pitch } from '../../music/pitch.ts';
import { type Rational, rational, ZERO } from '../../music/rational.ts';
import { childText, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { Note } from '../model/note.ts';
import { readGlissandoWords } from '../words/glissando-words.ts';
import type { Naming } from '../words/pedal-names.ts';
import { usualNaming } from '../words/pedal-words.ts';
import { MAX_STAVES, readAttributes } from './attributes.ts';
import { offsetOf, wordsIn } from './directions/directions.ts';
import { readHarpDirection } from './directions/harp-directions.ts';
import { OpenBeams, readStem } from './notes/beams.ts';
import { readNoteMarks } from './notes/note-marks.ts';
import { StaffSigns } from './notes/staff-signs.ts';
import type { PartBar } from './parts.ts';
import type {
  RawBar,
  RawDamp,
  RawGlissando,
  RawHandWords,
  RawLeverWords,
  RawMarking,
  RawNote,
  RawPart,
  RawRest,
  RawSharing,
  RawUnreadWords,
} from './raw-part.ts';

import type { RemarkList } from './remark-list.ts';
import { BadValue, readInteger, readNumber } from './values.ts';
import { type BarItem, statesDivisions, type WalkedBars } from './walk-bar.ts';

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
 * @param walks takes down how each bar was walked
 * @param bars null where the part lacks a bar
 * @throws BadValue for values that are no numbers or out of range
 */
export const readHarpPart = (
  bars: readonly (PartBar | null)[],
  place: PartPlace,
  walks: WalkedBars,
  remarks: RemarkList,
): RawPart => {
  const directions = bars.flatMap((bar) => childrenOf(bar).filter(({ name }) => name === 'direction'));
  const reader = new HarpPartReader(place, usualNaming(directions.map(wordsIn)), walks, remarks);
  for (const bar of bars) reader.readBar(bar);
  return reader.finish();
};

const childrenOf = (bar: PartBar | null): readonly XmlElement[] => bar?.content.children ?? [];

/** The signs in force as the reading goes on, and what was read so far. */
class HarpPartReader {
  readonly #place: PartPlace;
  readonly #naming: Naming | null;
  readonly #walks: WalkedBars;
  readonly #remarks: RemarkList;
  readonly #signs = new StaffSigns();
  readonly #bars: RawBar[] = [];
  readonly #notes: RawNote[] = [];
  readonly #rests: RawRest[] = [];
  readonly #damps: RawDamp[] = [];
  readonly #markings: RawMarking[] = [];
  readonly #unreadWords: RawUnreadWords[] = [];
  readonly #leverWords: RawLeverWords[] = [];
  readonly #glissandi: RawGlissando[] = [];
  readonly #handWords: RawHandWords[] = [];
  readonly #sharing: RawSharing[] = [];
  readonly #beams = new OpenBeams();
  #divisions: Rational | null = null;
  #lowestStaff = 1;

  constructor(place: PartPlace, naming: Naming | null, walks: WalkedBars, remarks: RemarkList) {
    this.#place = place;
    this.#naming = naming;
    this.#walks = walks;
    this.#remarks = remarks;
  }

  readBar(bar: PartBar | null): void {
    this.#signs.startBar();
    const length = bar === null ? ZERO : this.#readContent(bar.content, bar.index);
    this.#bars.push({ length, signs: this.#signs.endBar() });
  }

  finish(): RawPart {
    return {
      staves: Math.max(this.#signs.staves, this.#lowestStaff),
      staffOffset: this.#place.staffOffset,
      naming: this.#naming,
      bars: this.#bars,
      notes: this.#notes,
      rests: this.#rests,
      damps: this.#damps,
      markings: this.#markings,
      unreadWords: this.#unreadWords,
      leverWords: this.#leverWords,
      glissandi: this.#glissandi,
      handWords: this.#handWords,
      sharing: this.#sharing,
    };
  }

  #readContent(content: XmlElement, bar: number): Rational {
    const divisions = this.#divisions ?? rational(1);
    const walked = this.#walks.walk(content, divisions, (item) => this.#readItem(item, bar));
    if (walked.beforeStart)
      this.#remarks.skip('A backup goes back past the start of the bar; it is cut off there', bar);
    const isStated = this.#divisions !== null || content.children.some(statesDivisions);
    if (isStated) this.#divisions = walked.divisions;
    else if (walked.length.num > 0) {
      this.#remarks.skip('The file gives no divisions: durations are read as quarter notes', bar);
    }
    return walked.length;
  }

  #readItem(item: BarItem, bar: number): void {
    const { element, at } = item;
    switch (element.name) {
      case 'note':
        this.#readNote(item, bar);
        break;
      case 'attributes':
        this.#signs.read(readAttributes(element, at, bar, this.#remarks), at);
        break;
      case 'direction':
        this.#readDirection(item, bar);
        break;
      case 'harmony':
        this.#remarks.skip('Chord symbols are not read as notes', bar);
        break;
      case 'figured-bass':
        this.#remarks.skip('A figured bass is not read as notes', bar);
        break;
    }
  }

  #readNote(item: BarItem, bar: number): void {
    const { element, at, duration, chordDuration } = item;
    if (item.outlastsChord)
      this.#remarks.skip('A note written longer than its chord is read as long as the chord', bar);
    const { span } = element;
    const sourceId = element.attributes.id ?? '';
    const staff = this.#staffOf(element) + this.#place.staffOffset;
    const voice = this.#place.voicePrefix + (childText(element, 'voice') || '1');
    const pitch = firstChild(element, 'pitch');
    if (pitch !== undefined) {
      const last = this.#notes.at(-1);
      const isSameChord = item.chord && last !== undefined && last.bar === bar;
      this.#notes.push({
        bar,
        at,
        duration,
        span,
        sourceId,
        staff,
        voice,
        repeats: null,
        chord: isSameChord ? last.chord : `${this.#place.voicePrefix}${this.#notes.length}`,
        chordDuration,
        written: readPitch(pitch),
        transposition: this.#signs.transpositionOf(staff - this.#place.staffOffset),
        grace: readGrace(element),
        role: roleOf(element),
        diamond: childText(element, 'notehead') === 'diamond',
        accidental: firstChild(element, 'accidental') !== undefined,
        marks: readNoteMarks(element, bar, this.#remarks),
        stem: readStem(element) ?? (isSameChord ? last.stem : null),
        beam: isSameChord ? last.beam : this.#beams.read(element, voice),
      });
    } else if (firstChild(element, 'rest') !== undefined) {
      this.#rests.push({ bar, at, duration, span, sourceId, staff, voice });
    } else {
      this.#remarks.skip('Notes without a pitch are ignored', bar);
    }
  }

  #staffOf(element: XmlElement): number {
    const staff = firstChild(element, 'staff');
    const number = staff === undefined ? 1 : readInteger(staff, 'staff number', 1, MAX_STAVES);
    this.#lowestStaff = Math.max(this.#lowestStaff, number);
    return number;
  }

  #readDirection(item: BarItem, bar: number): void {
    const { element } = item;
    const read = readHarpDirection(element, bar, this.#naming, this.#remarks);
    const { marking, unread, levers, damp, hand, sharing } = read;
    const text = wordsIn(element);
    const words = readGlissandoWords(text);
    if ([marking, unread, levers, damp, hand, sharing, words].every((each) => each === null)) return;
    const at = offsetOf(item);
    const staff = this.#staffOf(element) + this.#place.staffOffset;
    if (words !== null) this.#glissandi.push({ bar, at, staff, text, words });
    if (hand !== null) this.#handWords.push({ bar, at, staff, words: hand });
    if (sharing !== null) {
      const told = firstChild(element, 'staff') === undefined ? null : staff;
      this.#sharing.push({ bar, at, staff: told, span: element.span, ...sharing });
    }
    if (marking !== null) this.#markings.push({ bar, at, span: element.span, ...marking });
    if (levers !== null) this.#leverWords.push({ bar, at, span: element.span, ...levers });
    if (unread !== null) this.#unreadWords.push({ bar, at, span: element.span, text: unread });
    if (damp !== null) {
      const hasStaff = damp === 'damp' && firstChild(element, 'staff') !== undefined;
      const staff = hasStaff ? this.#staffOf(element) + this.#place.staffOffset : null;
      this.#damps.push({ bar, at, kind: damp, staff });
    }
  }
}

const readPitch = (pitch: XmlElement): Pitch => {
  const step = firstChild(pitch, 'step');
  const octave = firstChild(pitch, 'octave');
  const alter = firstChild(pitch, 'alter');
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
  const grace = firstChild(note, 'grace');
  return grace === undefined ? null : { slashed: grace.attributes.slash === 'yes' };
};

const roleOf = (note: XmlElement): Note['role'] => {
  if (firstChild(note, 'cue') !== undefined) return 'cue';
  return note.attributes['print-object'] === 'no' ? 'hidden' : 'played';
};

import { compare, type Rational, subtract, ZERO } from '../../music/rational.ts';
import { child, type XmlElement } from '../../xml/tree.ts';
import { addTime, BadValue, exactTime, readDivisions, readLength } from './values.ts';

/** One child of a bar and the time at which it stands, counted from the bar's start. */
export interface BarItem {
  readonly element: XmlElement;
  readonly at: Rational;
  /** Length of a note or rest; 0 for anything else and for grace notes. No note lasts longer than its chord. */
  readonly duration: Rational;
  /** Length of the chord's first note: a further note may be shorter. */
  readonly chordDuration: Rational;
  /** The file gives a further note of a chord a greater length than the first. */
  readonly outlastsChord: boolean;
  /** A further note of the chord that the note before it began. */
  readonly chord: boolean;
  /** Divisions of a quarter note in force here. */
  readonly divisions: Rational;
}

/** What the walk through a bar leaves behind. */
export interface WalkedBar {
  /** How far the longest voice goes. */
  readonly length: Rational;
  readonly divisions: Rational;
  /** A `backup` asked for a time before the bar. */
  readonly beforeStart: boolean;
}

/**
 * Walks through a bar in the order of the file and tells the time of each child (MusicXML 4.0: `note` and `forward`
 * move on, `backup` moves back, `chord` and `grace` stay).
 *
 * A further note of a chord cannot be longer than the first (MusicXML 4.0, `chord`). Files that write it longer, as
 * where only the first note's length is scaled to its tuplet, mean the first note's length.
 *
 * @param divisions in force at the bar's start
 * @param visit is called for each child, notes only where `withNotes`
 * @throws BadValue for lengths that are no numbers or out of range
 */
export const walkBar = (
  bar: XmlElement,
  divisions: Rational,
  visit: (item: BarItem) => void,
  withNotes = true,
): WalkedBar => {
  let current = divisions;
  let at = ZERO;
  let chordAt = ZERO;
  let chordDuration: Rational | null = null;
  let length = ZERO;
  let beforeStart = false;
  for (const element of bar.children) {
    switch (element.name) {
      case 'note': {
        const stated = durationOf(element, current);
        const chord = child(element, 'chord') !== undefined;
        if (!chord) {
          chordAt = at;
          chordDuration = child(element, 'grace') === undefined ? stated : null;
        }
        const outlastsChord = chord && chordDuration !== null && compare(stated, chordDuration) > 0;
        const duration = outlastsChord ? chordDuration! : stated;
        if (withNotes)
          visit({
            element,
            at: chordAt,
            duration,
            chordDuration: chordDuration ?? duration,
            outlastsChord,
            chord,
            divisions: current,
          });
        // A chord's further notes end with the first at the latest.
        if (chord && chordDuration !== null) break;
        const end = addTime(chordAt, duration, element, 'duration');
        if (!chord) at = end;
        length = later(length, end);
        break;
      }
      case 'backup': {
        at = exactTime(subtract(at, lengthOf(element, current)), element, 'duration');
        if (compare(at, ZERO) < 0) {
          beforeStart = true;
          at = ZERO;
        }
        break;
      }
      case 'forward':
        at = addTime(at, lengthOf(element, current), element, 'duration');
        length = later(length, at);
        break;
      case 'attributes': {
        const stated = child(element, 'divisions');
        if (stated !== undefined) current = readDivisions(stated);
        visit(timeless(element, at, current));
        break;
      }
      default:
        visit(timeless(element, at, current));
    }
  }
  return { length, divisions: current, beforeStart };
};

/** A child that takes no time. */
const timeless = (element: XmlElement, at: Rational, divisions: Rational): BarItem => ({
  element,
  at,
  duration: ZERO,
  chordDuration: ZERO,
  outlastsChord: false,
  chord: false,
  divisions,
});

const later = (a: Rational, b: Rational): Rational => (compare(a, b) >= 0 ? a : b);

const lengthOf = (element: XmlElement, divisions: Rational): Rational => {
  const duration = child(element, 'duration');
  if (duration === undefined) throw new BadValue(element, 'duration');
  return readLength(duration, divisions, 'duration');
};

const durationOf = (note: XmlElement, divisions: Rational): Rational =>
  child(note, 'grace') === undefined ? lengthOf(note, divisions) : ZERO;

/** Whether a child of a bar states the divisions of a quarter note. */
export const statesDivisions = (element: XmlElement): boolean =>
  element.name === 'attributes' && child(element, 'divisions') !== undefined;

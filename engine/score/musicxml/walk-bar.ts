import { compare, equals, type Rational, subtract, ZERO } from '../../music/rational.ts';
import { firstChild, type XmlElement } from '../../xml/tree.ts';
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
  const walk = new Walk(divisions);
  for (const element of bar.children) {
    const item = walk.take(element, withNotes);
    if (item !== null) visit(item);
  }
  return walk.walked();
};

/** The bars of a score, of which those that were walked for their notes are not walked again for their signs. */
export class WalkedBars {
  readonly #known = new Map<XmlElement, KnownWalk>();

  /** As `walkBar`, notes included. */
  walk(bar: XmlElement, divisions: Rational, visit: (item: BarItem) => void): WalkedBar {
    const signs: BarItem[] = [];
    const walked = walkBar(bar, divisions, (item) => {
      if (item.element.name !== 'note') signs.push(item);
      visit(item);
    });
    this.#known.set(bar, { divisions, signs, walked });
    return walked;
  }

  /** The same for all that is no note. */
  walkSigns(bar: XmlElement, divisions: Rational, visit: (item: BarItem) => void): WalkedBar {
    const known = this.#known.get(bar);
    if (known === undefined || !equals(known.divisions, divisions))
      return walkBar(bar, divisions, visit, false);
    for (const item of known.signs) visit(item);
    return known.walked;
  }
}

interface KnownWalk {
  /** In force at the bar's start. */
  readonly divisions: Rational;
  readonly signs: readonly BarItem[];
  readonly walked: WalkedBar;
}

/** Where the walk stands in its bar. */
class Walk {
  #divisions: Rational;
  #at = ZERO;
  #length = ZERO;
  #beforeStart = false;
  /** The chord that further notes join; of no length where it is one of grace notes. */
  #chord: { readonly at: Rational; readonly duration: Rational | null } = { at: ZERO, duration: null };

  constructor(divisions: Rational) {
    this.#divisions = divisions;
  }

  walked(): WalkedBar {
    return { length: this.#length, divisions: this.#divisions, beforeStart: this.#beforeStart };
  }

  /** Goes on by one child; null for what only moves on or back, and for notes that are not wanted. */
  take(element: XmlElement, withNotes: boolean): BarItem | null {
    switch (element.name) {
      case 'note':
        return this.#takeNote(element, withNotes);
      case 'backup':
        this.#moveBack(element);
        return null;
      case 'forward':
        this.#at = addTime(this.#at, lengthOf(element, this.#divisions), element, 'duration');
        this.#length = later(this.#length, this.#at);
        return null;
      case 'attributes': {
        const stated = firstChild(element, 'divisions');
        if (stated !== undefined) this.#divisions = readDivisions(stated);
      }
    }
    return timeless(element, this.#at, this.#divisions);
  }

  #takeNote(element: XmlElement, isWanted: boolean): BarItem | null {
    const stated = durationOf(element, this.#divisions);
    const chord = firstChild(element, 'chord') !== undefined;
    if (!chord) {
      const isGrace = firstChild(element, 'grace') !== undefined;
      this.#chord = { at: this.#at, duration: isGrace ? null : stated };
    }
    const { at, duration: longest } = this.#chord;
    const outlastsChord = chord && longest !== null && compare(stated, longest) > 0;
    const duration = outlastsChord ? longest : stated;
    // A chord's further notes end with the first at the latest.
    if (!chord || longest === null) {
      const end = addTime(at, duration, element, 'duration');
      if (!chord) this.#at = end;
      this.#length = later(this.#length, end);
    }
    if (!isWanted) return null;
    const chordDuration = longest ?? duration;
    return { element, at, duration, chordDuration, outlastsChord, chord, divisions: this.#divisions };
  }

  #moveBack(element: XmlElement): void {
    this.#at = exactTime(subtract(this.#at, lengthOf(element, this.#divisions)), element, 'duration');
    if (compare(this.#at, ZERO) >= 0) return;
    this.#beforeStart = true;
    this.#at = ZERO;
  }
}

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
  const duration = firstChild(element, 'duration');
  if (duration === undefined) throw new BadValue(element, 'duration');
  return readLength(duration, divisions, 'duration');
};

const durationOf = (note: XmlElement, divisions: Rational): Rational =>
  firstChild(note, 'grace') === undefined ? lengthOf(note, divisions) : ZERO;

/** Whether a child of a bar states the divisions of a quarter note. */
export const statesDivisions = (element: XmlElement): boolean =>
  element.name === 'attributes' && firstChild(element, 'divisions') !== undefined;

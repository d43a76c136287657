import { type Letter, letterAtStep, type Pitch } from '../../../music/pitch.ts';
import { type BarAccidentals, startBar } from '../../bars/bar-accidentals.ts';
import type { ParsedPitch } from '../parsed-tune.ts';
import type { TuneKey } from '../tune.ts';
import { alterOfName } from './keys.ts';

/**
 * How far an accidental of the bar reaches: to all octaves, its own, or its note alone (ABC 2.1, 11.3,
 * `propagate-accidentals`). Unless the file says otherwise it is its own octave, as a reader of the printed page takes
 * it and as programs and tune books have it, though the standard has all octaves (from memory).
 */
export type AccidentalReach = 'pitch' | 'octave' | 'not';

/** A pitch that was resolved. */
export interface ResolvedPitch {
  readonly pitch: Pitch;
  /** Whether the page needs its accidental, or the file states one. */
  readonly accidental: boolean;
}

/** Middle C as a step of the staff above C0. */
const MIDDLE_C = 28;

/**
 * The accidentals of one voice as it is read: what ABC means by a note, and what a reader of the printed page would
 * take it for. Where the two differ the accidental is printed.
 */
export class VoicePitches {
  readonly #reach: AccidentalReach;
  #octaves = 0;
  #key: ReadonlyMap<Letter, number> = new Map();
  #bar = new Map<string, number>();
  #page: BarAccidentals = startBar(0);
  #printedFifths = 0;
  /** Whether a note would be another if accidentals held in all octaves. */
  meetsOtherOctave = false;
  #letters = new Map<Letter, number>();

  constructor(reach: AccidentalReach) {
    this.#reach = reach;
  }

  /** @param printed the key that is printed from this bar on, where it changes */
  startBar(printed: TuneKey | null): void {
    if (printed !== null) this.#printedFifths = printed.printed;
    this.#bar = new Map();
    this.#letters = new Map();
    this.#page = startBar(this.#printedFifths);
  }

  changeKey({ alters }: TuneKey): void {
    this.#key = alters;
    this.#bar = new Map();
    this.#letters = new Map();
  }

  /** @param octaves how many octaves above its place in the staff the clef lets a note sound */
  changeClef(octaves: number): void {
    this.#octaves = octaves;
  }

  /** @param tied what the notes before are tied to: such a note keeps its pitch, with no accidental printed */
  resolve({ pitch: steps, accidental }: ParsedPitch, tied: readonly Pitch[]): ResolvedPitch | null {
    if (steps === undefined) return null;
    const { letter, octave } = letterAtStep(MIDDLE_C + steps + 7 * this.#octaves);
    const stated = accidental === undefined ? undefined : alterOfName(accidental);
    if (octave < 0 || octave > 9) return null;
    const elsewhere = this.#letters.get(letter);
    if (stated !== undefined) this.#letters.set(letter, stated);
    if (stated !== undefined) this.#bar.set(this.#nameOf(letter, octave), stated);
    const tiedAlter = tied.find((each) => each.letter === letter && each.octave === octave)?.alter;
    const alter = stated ?? tiedAlter ?? this.#alterOf(letter, octave);
    if (
      this.#reach === 'octave' &&
      stated === undefined &&
      tiedAlter === undefined &&
      elsewhere !== undefined
    )
      this.meetsOtherOctave ||= elsewhere !== alter;
    const isTied = tiedAlter === alter;
    const accidentalShown = !isTied && (stated !== undefined || this.#page.alterOf(letter, octave) !== alter);
    if (accidentalShown) {
      this.#page.write(letter, octave, alter);
    }
    return { pitch: { letter, alter, octave }, accidental: accidentalShown };
  }

  #nameOf(letter: Letter, octave: number): string {
    return this.#reach === 'pitch' ? letter : `${letter}${octave}`;
  }

  #alterOf(letter: Letter, octave: number): number {
    const inKey = this.#key.get(letter) ?? 0;
    return this.#reach === 'not' ? inKey : (this.#bar.get(this.#nameOf(letter, octave)) ?? inKey);
  }
}

/** Whether a text names one of the ways. */
export const isReach = (text: string): text is AccidentalReach => ['pitch', 'octave', 'not'].includes(text);

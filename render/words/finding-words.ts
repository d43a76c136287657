import type {
  FactsOf,
  HarpString,
  Letter,
  OpenTuning,
  PassageCode,
  PedalAt,
  Pitch,
  PlanFindingCode,
  SpelledNote,
} from '../../engine/index.ts';

/** How the sentences about findings name notes: as the sheet asks. */
export interface NoteNames {
  /** With its octave: `C♯4`. */
  readonly pitch: (pitch: Pitch) => string;
  /** In whatever octave, a natural without its sign: `C♯`, `D`. */
  readonly note: (note: SpelledNote) => string;
  /** A pedal in a position, a natural with its sign: `C♯`, `D♮`. */
  readonly change: (change: PedalAt) => string;
  /** A pedal, or all strings of a letter. */
  readonly letter: (letter: Letter) => string;
  /** A string: `C4`. */
  readonly string: (string: HarpString) => string;
  /** How open strings are tuned, by their key if there is one: `E♭ major`. */
  readonly tuning: (tuning: OpenTuning) => string;
  readonly majorKey: (tonic: SpelledNote) => string;
}

/** What each finding of a plan says of one place, from the facts that the engine tells. */
export type FindingSentences = {
  readonly [Code in PlanFindingCode]: (facts: FactsOf<Code>, names: NoteNames) => string;
};

/** What findings say of several places in a row. */
export type PassageSentences = { readonly [Code in PassageCode]: (places: number) => string };

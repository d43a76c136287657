import type {
  AdviceFacts,
  AdviceKind,
  FactsOf,
  HarpString,
  HelpFacts,
  HelpKind,
  Letter,
  LeverAt,
  OpenTuning,
  PassageCode,
  PedalAt,
  Pitch,
  PlanFindingCode,
  ProofFindingCode,
  Setting,
  SpelledNote,
  WrittenName,
} from '../../engine/index.ts';

/** How the sentences about findings name notes: as the sheet asks. */
export interface NoteNames {
  /** With its octave: `C♯4`. */
  readonly pitch: (pitch: Pitch) => string;
  /** In whatever octave, a natural without its sign: `C♯`, `D`. */
  readonly note: (note: SpelledNote) => string;
  /** A pedal in a position, a natural with its sign: `C♯`, `D♮`. */
  readonly change: (change: PedalAt) => string;
  /** What a string is tuned to, a natural with its sign in German too. */
  readonly tunedTo: (to: PedalAt) => string;
  /** A pedal, or all strings of a letter. */
  readonly letter: (letter: Letter) => string;
  /** A string: `C4`. */
  readonly string: (string: HarpString) => string;
  /** What a string gives, a natural with its sign: `F♯4`, `F♮4`. */
  readonly lever: (lever: LeverAt) => string;
  /** A name of a string or of all strings of a letter, as far as it is written out. */
  readonly written: (name: WrittenName) => string;
  readonly setting: (setting: Setting) => string;
  /** How open strings are tuned, by their key if there is one: `E♭ major`. */
  readonly tuning: (tuning: OpenTuning) => string;
  readonly majorKey: (tonic: SpelledNote) => string;
}

/** What each finding of a plan says of one place, from the facts that the engine tells. */
export type FindingSentences = {
  readonly [Code in PlanFindingCode]: (facts: FactsOf<Code>, names: NoteNames) => string;
};

/** What findings say of several places in a row. */
export type PassageSentences = {
  readonly [Code in PassageCode]: (places: number, guessed: boolean) => string;
};

/** What would help; what is told of another fix is put together (`tellHelp`). */
export type HelpSentences = {
  readonly [Kind in Exclude<HelpKind, 'without-other-fixes'>]: (
    facts: HelpFacts<Kind>,
    names: NoteNames,
  ) => string;
};

/** What each finding of proofreading says, from the facts that the engine tells. */
export type ProofSentences = {
  readonly [Code in ProofFindingCode]: (facts: FactsOf<Code>, names: NoteNames) => string;
};

/** What would help beside the edits. */
export type AdviceSentences = {
  readonly [Kind in AdviceKind]: (facts: AdviceFacts<Kind>, names: NoteNames) => string;
};

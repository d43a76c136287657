import type {
  AdviceFacts,
  AdviceKind,
  FactsOf,
  HelpFacts,
  HelpKind,
  NoteNames,
  PassageCode,
  PlanFindingCode,
  ProofFindingCode,
} from '../../engine/index.ts';

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

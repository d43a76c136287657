import type {
  AdviceFacts,
  AdviceKind,
  HelpFacts,
  HelpKind,
  NoteNames,
  PlanFindingCode,
  ProofFindingCode,
  SentencesOf,
} from '../../engine/index.ts';

/** What each finding of a plan says of one place, from the facts that the engine tells. */
export type FindingSentences = SentencesOf<PlanFindingCode>;

export type PlainHelpKind = Exclude<HelpKind, 'without-other-fixes'>;

/** What would help; what is told of another fix is put together (`tellHelp`). */
export type HelpSentences = {
  readonly [Kind in PlainHelpKind]: (facts: HelpFacts<Kind>, names: NoteNames) => string;
};

/** What each finding of proofreading says, from the facts that the engine tells. */
export type ProofSentences = SentencesOf<ProofFindingCode>;

/** What would help beside the edits. */
export type AdviceSentences = {
  readonly [Kind in AdviceKind]: (facts: AdviceFacts<Kind>, names: NoteNames) => string;
};

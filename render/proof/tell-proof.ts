import type {
  Advice,
  FixSentences,
  FixWords,
  LeverFixSentences,
  NoteNames,
  ProofFinding,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { noteNames } from '../facts/tell-finding.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';

/** How a proof is told: in the words of a language, with the note names asked for. */
export interface ProofTelling {
  readonly words: Words;
  readonly naming: EngravingOptions['naming'];
  readonly fixes: FixWords<FixSentences>;
  readonly leverFixes: FixWords<LeverFixSentences>;
  /** What a finding says. */
  readonly finding: (finding: Pick<ProofFinding, 'code' | 'told'>) => string;
  /** What would help beside the edits. */
  readonly advice: (advice: Advice) => string;
}

/** How a proof is told in a language: its findings, edits and advice. */
export const proofTelling = ({
  language,
  naming,
}: Pick<EngravingOptions, 'language' | 'naming'>): ProofTelling => {
  const words = wordsOf({ language });
  const names = noteNames(naming, words);
  return {
    words,
    naming,
    fixes: { names, sentences: words.proof.fixes },
    leverFixes: { names, sentences: words.proof.leverFixes },
    finding: ({ code, told }) => {
      // Facts are made for the code of their finding, and no finding of proofreading is told of several places together.
      const sentence = words.proof.sentences[code] as (facts: unknown, names: NoteNames) => string;
      return sentence(told.kind === 'place' ? told.facts : {}, names);
    },
    advice: ({ kind, facts }) =>
      (words.proof.advice[kind] as (facts: Advice['facts'], names: NoteNames) => string)(facts, names),
  };
};

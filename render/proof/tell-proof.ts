import type {
  Advice,
  AdviceKind,
  FixSentences,
  FixWords,
  LeverFixSentences,
  NoteNames,
  ProofFinding,
  ProofFindingCode,
  ToldPlace,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { noteNames } from '../facts/tell-finding.ts';
import type { AdviceSentences, ProofSentences } from '../words/finding-words.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';

/** How a proof is told: in the words of a language, with the note names asked for. */
export interface ProofTelling {
  readonly words: Words;
  readonly naming: EngravingOptions['naming'];
  readonly fixes: FixWords<FixSentences>;
  readonly leverFixes: FixWords<LeverFixSentences>;
  /** What a finding says. */
  readonly finding: (finding: Pick<ProofFinding, 'told'>) => string;
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
    finding: ({ told }) => tellPlace(told, words.proof.sentences, names),
    advice: (advice) => tellAdvice(advice, words.proof.advice, names),
  };
};

const tellPlace = <Code extends ProofFindingCode>(
  { code, facts }: ToldPlace<Code>,
  sentences: ProofSentences,
  names: NoteNames,
): string => sentences[code](facts, names);

const tellAdvice = <Kind extends AdviceKind>(
  { kind, facts }: Advice<Kind>,
  sentences: AdviceSentences,
  names: NoteNames,
): string => sentences[kind](facts, names);

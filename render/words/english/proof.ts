import {
  ADVICE_SENTENCES,
  ENGLISH_FIXES,
  ENGLISH_LEVER_FIXES,
  FINDINGS,
  type FixSentences,
  type LeverFixSentences,
} from '../../../engine/index.ts';
import type { AdviceSentences, ProofSentences } from '../finding-words.ts';
import { fieldOfEach } from './phrases.ts';

const sentences: ProofSentences = fieldOfEach(FINDINGS, 'sentence');

export const PROOF_WORDS = {
  nothing: 'Nothing is wrong',
  faults: 'Faults, and how to put them right',
  edits: 'All edits together',
  inFile: 'In the file',
  right: {
    pedal: 'Every note finds its pedal, and the feet have time.',
    lever: 'Every note finds its lever, and a hand has time for each change.',
  },
  // The engine’s own words.
  sentences,
  advice: ADVICE_SENTENCES as AdviceSentences,
  fixes: ENGLISH_FIXES as FixSentences,
  leverFixes: ENGLISH_LEVER_FIXES as LeverFixSentences,
} as const;
